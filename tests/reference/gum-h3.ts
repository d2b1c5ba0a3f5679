/**
 * JCGM 100:2008 (GUM), H.3: calibration of a thermometer. Readings t [°C] and observed corrections b [°C]; a line
 * b(t) = y1 + y2 (t − 20 °C) by least squares. Published there to four digits, here with the digits that the data give.
 */
export const gumH3 = {
  points: [
    { reading: 21.521, correction: -0.171 },
    { reading: 22.012, correction: -0.169 },
    { reading: 22.512, correction: -0.166 },
    { reading: 23.003, correction: -0.159 },
    { reading: 23.507, correction: -0.164 },
    { reading: 23.999, correction: -0.165 },
    { reading: 24.513, correction: -0.156 },
    { reading: 25.002, correction: -0.157 },
    { reading: 25.503, correction: -0.159 },
    { reading: 26.01, correction: -0.161 },
    { reading: 26.511, correction: -0.16 },
  ],
  y1: { value: -0.17120379, standardUncertainty: 0.002877598 },
  y2: { value: 0.00218269774, standardUncertainty: 0.000667938773 },
  correlation: -0.930429603,
  residualStandardDeviation: 0.003497563964,
  degreesOfFreedom: 9,
  at30C: { value: -0.149376813, standardUncertainty: 0.004138596 },
} as const;
