/**
 * NIST Statistical Reference Datasets, linear least squares, data set Wampler3 (higher difficulty; R. H. Wampler, 1970, JASA 65, 549-565).
 * Model: y = B0 + B1 x + … + B5 x⁵. Points and certified values as in NIST's file Wampler3.dat (public domain).
 */
export const wampler3 = {
  certified: {
    coefficients: [1, 1, 1, 1, 1, 1],
    standardDeviations: [
      2152.3262467817, 2363.55173469681, 779.343524331583, 101.47550755035, 5.64566512170752, 0.112324854679312,
    ],
    residualStandardDeviation: 2360.14502379268,
    degreesOfFreedom: 15,
  },
  points: [
    { x: 0, y: 760 },
    { x: 1, y: -2042 },
    { x: 2, y: 2111 },
    { x: 3, y: -1684 },
    { x: 4, y: 3888 },
    { x: 5, y: 1858 },
    { x: 6, y: 11379 },
    { x: 7, y: 17560 },
    { x: 8, y: 39287 },
    { x: 9, y: 64382 },
    { x: 10, y: 113159 },
    { x: 11, y: 175108 },
    { x: 12, y: 273291 },
    { x: 13, y: 400186 },
    { x: 14, y: 581243 },
    { x: 15, y: 811568 },
    { x: 16, y: 1121004 },
    { x: 17, y: 1506550 },
    { x: 18, y: 2002767 },
    { x: 19, y: 2611612 },
    { x: 20, y: 3369180 },
  ],
} as const;
