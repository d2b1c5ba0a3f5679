/**
 * NIST Statistical Reference Datasets, univariate summary statistics, data set Mavro (transmittance of a filter; R. Mavrodineaunu, NIST).
 * Values and certified lag-1 autocorrelation as in NIST's file Mavro.dat (public domain).
 */
export const mavro = {
  certifiedLag1Autocorrelation: 0.937989183438248,
  values: [
    2.0018, 2.0017, 2.0018, 2.0019, 2.0018, 2.0017, 2.0015, 2.0014, 2.0015, 2.0015, 2.0017, 2.0018, 2.0018, 2.0019,
    2.0019, 2.0021, 2.002, 2.0016, 2.0014, 2.0013, 2.0013, 2.0015, 2.0015, 2.0016, 2.0015, 2.0014, 2.0013, 2.0014,
    2.0015, 2.0014, 2.0015, 2.0016, 2.0015, 2.0016, 2.0019, 2.002, 2.002, 2.0021, 2.0022, 2.0023, 2.0024, 2.0025,
    2.0027, 2.0026, 2.0026, 2.0026, 2.0027, 2.0026, 2.0025, 2.0024,
  ],
} as const;
