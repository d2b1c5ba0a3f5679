/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set MGH09 (higher difficulty; J. S. Kowalik and M. R. Osborne (1978)).
 * Model: y = b1 (x² + x b2)/(x² + x b3 + b4). Points, starts and certified values as in NIST's file MGH09.dat (public domain).
 */
export const mgh09 = {
  source: 'NIST StRD',
  starts: [
    [25, 39, 41.5, 39],
    [0.25, 0.39, 0.415, 0.39],
  ],
  certified: {
    parameters: [0.19280693458, 0.19128232873, 0.12305650693, 0.13606233068],
    standardDeviations: [0.011435312227, 0.19633220911, 0.080842031232, 0.090025542308],
    residualSumOfSquares: 0.00030750560385,
    residualStandardDeviation: 0.0066279236551,
    degreesOfFreedom: 7,
  },
  points: [
    { x: 4, y: 0.1957 },
    { x: 2, y: 0.1947 },
    { x: 1, y: 0.1735 },
    { x: 0.5, y: 0.16 },
    { x: 0.25, y: 0.0844 },
    { x: 0.167, y: 0.0627 },
    { x: 0.125, y: 0.0456 },
    { x: 0.1, y: 0.0342 },
    { x: 0.0833, y: 0.0323 },
    { x: 0.0714, y: 0.0235 },
    { x: 0.0625, y: 0.0246 },
  ],
} as const;
