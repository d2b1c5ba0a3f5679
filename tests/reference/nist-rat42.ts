/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set Rat42 (higher difficulty; D. A. Ratkowsky (1983)).
 * Model: y = b1/(1 + exp(b2 − b3 x)). Points, starts and certified values as in NIST's file Rat42.dat (public domain).
 */
export const rat42 = {
  source: 'NIST StRD',
  starts: [
    [100, 1, 0.1],
    [75, 2.5, 0.07],
  ],
  certified: {
    parameters: [72.462237576, 2.6180768402, 0.067359200066],
    standardDeviations: [1.7340283401, 0.088295217536, 0.0034465663377],
    residualSumOfSquares: 8.0565229338,
    residualStandardDeviation: 1.1587725499,
    degreesOfFreedom: 6,
  },
  points: [
    { x: 9, y: 8.93 },
    { x: 14, y: 10.8 },
    { x: 21, y: 18.59 },
    { x: 28, y: 22.33 },
    { x: 42, y: 39.35 },
    { x: 57, y: 56.11 },
    { x: 63, y: 61.73 },
    { x: 70, y: 64.62 },
    { x: 79, y: 67.08 },
  ],
} as const;
