/**
 * NIST Statistical Reference Datasets (NIST StRD), nonlinear least squares, data set Lanczos3 (lower difficulty; C. Lanczos (1956)).
 * Model: y = b1 exp(−b2 x) + b3 exp(−b4 x) + b5 exp(−b6 x). Points, starts and certified values as in NIST's file Lanczos3.dat (public domain).
 */
export const lanczos3 = {
  source: 'NIST StRD',
  starts: [
    [1.2, 0.3, 5.6, 5.5, 6.5, 7.6],
    [0.5, 0.7, 3.6, 4.2, 4, 6.3],
  ],
  certified: {
    parameters: [0.086816414977, 0.95498101505, 0.84400777463, 2.9515951832, 1.5825685901, 4.9863565084],
    standardDeviations: [0.017197908859, 0.097041624475, 0.041488663282, 0.10766312506, 0.058371576281, 0.034436403035],
    residualSumOfSquares: 1.6117193594e-8,
    residualStandardDeviation: 0.000029923229172,
    degreesOfFreedom: 18,
  },
  points: [
    { x: 0, y: 2.5134 },
    { x: 0.05, y: 2.0443 },
    { x: 0.1, y: 1.6684 },
    { x: 0.15, y: 1.3664 },
    { x: 0.2, y: 1.1232 },
    { x: 0.25, y: 0.9269 },
    { x: 0.3, y: 0.7679 },
    { x: 0.35, y: 0.6389 },
    { x: 0.4, y: 0.5338 },
    { x: 0.45, y: 0.4479 },
    { x: 0.5, y: 0.3776 },
    { x: 0.55, y: 0.3197 },
    { x: 0.6, y: 0.272 },
    { x: 0.65, y: 0.2325 },
    { x: 0.7, y: 0.1997 },
    { x: 0.75, y: 0.1723 },
    { x: 0.8, y: 0.1493 },
    { x: 0.85, y: 0.1301 },
    { x: 0.9, y: 0.1138 },
    { x: 0.95, y: 0.1 },
    { x: 1, y: 0.0883 },
    { x: 1.05, y: 0.0783 },
    { x: 1.1, y: 0.0698 },
    { x: 1.15, y: 0.0624 },
  ],
} as const;
