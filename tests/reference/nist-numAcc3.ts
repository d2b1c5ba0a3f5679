/**
 * NIST Statistical Reference Datasets, univariate summary statistics, data set NumAcc3 (constructed; Simon and Lesage, 1989: one 1000000.2, then 500 pairs).
 * Values and certified lag-1 autocorrelation as in NIST's file NumAcc3.dat (public domain).
 */
export const numAcc3 = {
  certifiedLag1Autocorrelation: -0.999,
  values: [1000000.2, ...Array.from({ length: 1000 }, (_, index) => (index % 2 === 0 ? 1000000.1 : 1000000.3))],
};
