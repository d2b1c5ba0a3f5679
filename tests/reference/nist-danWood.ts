/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set DanWood (lower difficulty; C. Daniel and F. S. Wood (1980)).
 * Model: y = b1 x^b2. Points, starts and certified values as in NIST's file DanWood.dat (public domain).
 */
export const danWood = {
  source: 'NIST StRD',
  starts: [
    [1, 5],
    [0.7, 4],
  ],
  certified: {
    parameters: [0.76886226176, 3.8604055871],
    standardDeviations: [0.01828197386, 0.051726610913],
    residualSumOfSquares: 0.0043173084083,
    residualStandardDeviation: 0.032853114039,
    degreesOfFreedom: 4,
  },
  points: [
    { x: 1.309, y: 2.138 },
    { x: 1.471, y: 3.421 },
    { x: 1.49, y: 3.597 },
    { x: 1.565, y: 4.34 },
    { x: 1.611, y: 4.882 },
    { x: 1.68, y: 5.66 },
  ],
} as const;
