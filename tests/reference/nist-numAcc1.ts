/**
 * NIST Statistical Reference Datasets, univariate summary statistics, data set NumAcc1 (constructed; Simon and Lesage, 1989).
 * Values and certified lag-1 autocorrelation as in NIST's file NumAcc1.dat (public domain).
 */
export const numAcc1 = {
  certifiedLag1Autocorrelation: -0.5,
  values: [10000001, 10000003, 10000002],
} as const;
