/**
 * NIST Statistical Reference Datasets, linear least squares, data set Wampler1 (higher difficulty; R. H. Wampler, 1970, JASA 65, 549-565).
 * Model: y = B0 + B1 x + … + B5 x⁵. Points and certified values as in NIST's file Wampler1.dat (public domain).
 */
export const wampler1 = {
  certified: {
    coefficients: [1, 1, 1, 1, 1, 1],
    standardDeviations: [0, 0, 0, 0, 0, 0],
    residualStandardDeviation: 0,
    degreesOfFreedom: 15,
  },
  points: [
    { x: 0, y: 1 },
    { x: 1, y: 6 },
    { x: 2, y: 63 },
    { x: 3, y: 364 },
    { x: 4, y: 1365 },
    { x: 5, y: 3906 },
    { x: 6, y: 9331 },
    { x: 7, y: 19608 },
    { x: 8, y: 37449 },
    { x: 9, y: 66430 },
    { x: 10, y: 111111 },
    { x: 11, y: 177156 },
    { x: 12, y: 271453 },
    { x: 13, y: 402234 },
    { x: 14, y: 579195 },
    { x: 15, y: 813616 },
    { x: 16, y: 1118481 },
    { x: 17, y: 1508598 },
    { x: 18, y: 2000719 },
    { x: 19, y: 2613660 },
    { x: 20, y: 3368421 },
  ],
} as const;
