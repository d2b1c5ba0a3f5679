/**
 * NIST Statistical Reference Datasets, linear least squares, data set NoInt1 (average difficulty; K. Eberhardt, NIST).
 * Model: y = B1 x. Points and certified values as in NIST's file NoInt1.dat (public domain).
 */
export const noInt1 = {
  certified: {
    coefficients: [2.07438016528926],
    standardDeviations: [0.165289256198347e-1],
    residualStandardDeviation: 3.56753034006338,
    degreesOfFreedom: 10,
  },
  points: [
    { x: 60, y: 130 },
    { x: 61, y: 131 },
    { x: 62, y: 132 },
    { x: 63, y: 133 },
    { x: 64, y: 134 },
    { x: 65, y: 135 },
    { x: 66, y: 136 },
    { x: 67, y: 137 },
    { x: 68, y: 138 },
    { x: 69, y: 139 },
    { x: 70, y: 140 },
  ],
} as const;
