/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set Roszman1 (average difficulty; L. Roszman, NIST (19??)).
 * Model: y = b1 − b2 x − arctan(b3/(x − b4))/π. Points, starts and certified values as in NIST's file Roszman1.dat (public domain).
 */
export const roszman1 = {
  source: 'NIST StRD',
  starts: [
    [0.1, -0.00001, 1000, -100],
    [0.2, -0.000005, 1200, -150],
  ],
  certified: {
    parameters: [0.20196866396, -0.0000061953516256, 1204.4556708, -181.34269537],
    standardDeviations: [0.019172666023, 0.0000032058931691, 74.050983057, 49.573513849],
    residualSumOfSquares: 0.00049484847331,
    residualStandardDeviation: 0.004854298406,
    degreesOfFreedom: 21,
  },
  points: [
    { x: -4868.68, y: 0.252429 },
    { x: -4868.09, y: 0.252141 },
    { x: -4867.41, y: 0.251809 },
    { x: -3375.19, y: 0.297989 },
    { x: -3373.14, y: 0.296257 },
    { x: -3372.03, y: 0.295319 },
    { x: -2473.74, y: 0.339603 },
    { x: -2472.35, y: 0.337731 },
    { x: -2469.45, y: 0.33382 },
    { x: -1894.65, y: 0.38951 },
    { x: -1893.4, y: 0.386998 },
    { x: -1497.24, y: 0.438864 },
    { x: -1495.85, y: 0.434887 },
    { x: -1493.41, y: 0.427893 },
    { x: -1208.68, y: 0.471568 },
    { x: -1206.18, y: 0.461699 },
    { x: -1206.04, y: 0.461144 },
    { x: -997.92, y: 0.513532 },
    { x: -996.61, y: 0.506641 },
    { x: -996.31, y: 0.505062 },
    { x: -834.94, y: 0.535648 },
    { x: -834.66, y: 0.533726 },
    { x: -710.03, y: 0.568064 },
    { x: -530.16, y: 0.612886 },
    { x: -464.17, y: 0.624169 },
  ],
} as const;
