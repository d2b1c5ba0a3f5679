/**
 * NIST Statistical Reference Datasets, linear least squares, data set Wampler5 (higher difficulty; R. H. Wampler, 1970, JASA 65, 549-565).
 * Model: y = B0 + B1 x + … + B5 x⁵. Points and certified values as in NIST's file Wampler5.dat (public domain).
 */
export const wampler5 = {
  certified: {
    coefficients: [1, 1, 1, 1, 1, 1],
    standardDeviations: [
      21523262.467817, 23635517.3469681, 7793435.24331583, 1014755.0755035, 56456.6512170752, 1123.24854679312,
    ],
    residualStandardDeviation: 23601450.2379268,
    degreesOfFreedom: 15,
  },
  points: [
    { x: 0, y: 7590001 },
    { x: 1, y: -20479994 },
    { x: 2, y: 20480063 },
    { x: 3, y: -20479636 },
    { x: 4, y: 25231365 },
    { x: 5, y: -20476094 },
    { x: 6, y: 20489331 },
    { x: 7, y: -20460392 },
    { x: 8, y: 18417449 },
    { x: 9, y: -20413570 },
    { x: 10, y: 20591111 },
    { x: 11, y: -20302844 },
    { x: 12, y: 18651453 },
    { x: 13, y: -20077766 },
    { x: 14, y: 21059195 },
    { x: 15, y: -19666384 },
    { x: 16, y: 26348481 },
    { x: 17, y: -18971402 },
    { x: 18, y: 22480719 },
    { x: 19, y: -17866340 },
    { x: 20, y: 10958421 },
  ],
} as const;
