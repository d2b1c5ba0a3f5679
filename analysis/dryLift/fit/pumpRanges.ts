/**
 * What any pump may be, where a start does not tell: each unknown has a range, entered as an error of its own, so that
 * it stays at the range's middle until the readings speak, and counts in every interval until they do.
 */
export const PUMP_RANGES = {
  /**
   * C p_atm/(V_i n), leak-back at atmospheric pressure over what the pump takes: 0.1, a factor of 150 either way in 95 %.
   * C grows with the cube of the clearance: that is a factor of five in clearance either way. Derived here.
   */
  relativeLeak: { middle: 0.1, logStandardDeviation: 2.5 },
  /** κ: 1 %, a factor of seven either way in 95 %. Common practice, no source. */
  carryOver: { middle: 0.01, logStandardDeviation: 1 },
  /**
   * B C² p_atm², entry loss over friction at full vacuum: K h⁴ p_atm²/(576 µ² L² R T). K = 1.5 and µ = 18.2 µPa s make it
   * 0.03 for a gap of 30 µm and 5 mm length, and 10 for one of 100 µm and 3 mm: 95 % within. Derived here.
   */
  entryLoss: { middle: 0.55, logStandardDeviation: 1.5 },
  /** Polytropic exponent of the gas before the gears: 1 to 1.4, each as likely. */
  exponent: { middle: 1.2, halfWidth: 0.2 },
  /** C at the start over C in the end: a factor of four either way in 95 %. Common practice, no source. */
  gapChangeRatio: { middle: 1, logStandardDeviation: 0.7 },
  /** How long films take to form or to fail: 2 s, a factor of five either way in 95 %. Common practice, no source. */
  gapChangeTimeS: { middle: 2, logStandardDeviation: 0.8 },
} as const;

type LogRange = { readonly middle: number; readonly logStandardDeviation: number };

/** A positive unknown so many standard deviations from its middle. */
export function withinRange({ middle, logStandardDeviation }: LogRange, deviations: number): number {
  return middle * Math.exp(logStandardDeviation * deviations);
}

/** The exponent so many standard deviations of its rectangle from the middle; never outside. */
export function exponentAt(deviations: number): number {
  const { middle, halfWidth } = PUMP_RANGES.exponent;
  return middle + halfWidth * Math.tanh(deviations / Math.sqrt(3));
}
