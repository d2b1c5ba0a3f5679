/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set Misra1a (lower difficulty; D. Misra, NIST (1978)).
 * Model: y = b1 (1 − exp(−b2 x)). Points, starts and certified values as in NIST's file Misra1a.dat (public domain).
 */
export const misra1a = {
  source: 'NIST StRD',
  starts: [
    [500, 0.0001],
    [250, 0.0005],
  ],
  certified: {
    parameters: [238.94212918, 0.00055015643181],
    standardDeviations: [2.7070075241, 0.0000072668688436],
    residualSumOfSquares: 0.12455138894,
    residualStandardDeviation: 0.1018787633,
    degreesOfFreedom: 12,
  },
  points: [
    { x: 77.6, y: 10.07 },
    { x: 114.9, y: 14.73 },
    { x: 141.1, y: 17.94 },
    { x: 190.8, y: 23.93 },
    { x: 239.9, y: 29.61 },
    { x: 289, y: 35.18 },
    { x: 332.8, y: 40.02 },
    { x: 378.4, y: 44.82 },
    { x: 434.8, y: 50.76 },
    { x: 477.3, y: 55.05 },
    { x: 536.8, y: 61.01 },
    { x: 593.1, y: 66.4 },
    { x: 689.1, y: 75.47 },
    { x: 760, y: 81.78 },
  ],
} as const;
