import { mean, median, medianAbsoluteDeviation, sampleStandardDeviation } from 'simple-statistics';
import { type Course, courseBetween } from './course.ts';

/** The suction before the motor starts. */
export type SuctionRest = {
  readonly meanPa: number;
  /** Of one reading, standard deviation; 0: the channel repeats one value. */
  readonly noisePa: number;
  readonly count: number;
};

const LEAST_REST_READINGS = 5;
/** Further from the median than so many median deviations a reading is wild: some seven standard deviations [1]. */
const WILD_DEVIATIONS = 10;

/**
 * What the suction channel shows before the motor starts.
 *
 * @param suction - absolute [s, Pa]
 * @param motorStartS - until when it was at rest [s]
 * @returns its mean and noise; null where the record shows fewer than five readings of rest [Pa]
 */
export function suctionRest(suction: Course, motorStartS: number): SuctionRest | null {
  const values = [...courseBetween(suction, Number.NEGATIVE_INFINITY, motorStartS).values];
  if (values.length < LEAST_REST_READINGS) return null;
  const middlePa = median(values);
  const reachPa = WILD_DEVIATIONS * medianAbsoluteDeviation(values);
  // No reach: most readings are one and the same, and what scatters is the channel's last digit.
  const tame = reachPa > 0 ? values.filter((value) => Math.abs(value - middlePa) <= reachPa) : values;
  return { meanPa: mean(tame), noisePa: sampleStandardDeviation(tame), count: tame.length };
}
