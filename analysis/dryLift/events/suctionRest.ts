import { mean, median, medianAbsoluteDeviation, sampleStandardDeviation } from 'simple-statistics';
import { type Course, courseBetween } from './course.ts';

/** The suction before the motor starts. */
export type SuctionRest = {
  readonly meanPa: number;
  /** Mean time of the readings. */
  readonly meanAtS: number;
  /** Of one reading, standard deviation; 0: the channel repeats one value. */
  readonly noisePa: number;
  readonly count: number;
};

const LEAST_REST_READINGS = 5;
/** What the last second before the motor starts shows is rest; what came before it belongs to it where it looks alike [s]. */
const SURE_REST_S = 1;
/** Further from the median than so many median deviations a reading is wild: some seven standard deviations [1]. */
const WILD_DEVIATIONS = 10;
/** A channel whose last digit flickers is still at rest within so many of its digits [1]. */
const FLICKERING_DIGITS = 3;
/** So many wild readings in a row are another state: the pipe was not vented yet, or the run before had not ended [1]. */
const WILD_IN_A_ROW = 3;

function smallestStep(values: readonly number[]): number {
  const steps = values.slice(1).map((value, index) => Math.abs(value - (values[index] ?? value)));
  return steps.reduce((least, step) => (step > 0 && step < least ? step : least), Number.POSITIVE_INFINITY);
}

/** Index from which the values stay within reach of the middle but for single wild ones. */
function restFrom(values: readonly number[], isWild: (value: number) => boolean): number {
  let inARow = 0;
  for (let index = values.length - 1; index >= 0; index -= 1) {
    inARow = isWild(values[index] ?? Number.NaN) ? inARow + 1 : 0;
    if (inARow === WILD_IN_A_ROW) return index + WILD_IN_A_ROW;
  }
  return 0;
}

/**
 * What the suction channel shows at rest before the motor starts: as far back as it stood where it stood at last.
 *
 * @param suction - absolute [s, Pa]
 * @param motorStartS - until when it was at rest [s]
 * @returns its mean and noise; null where the record shows fewer than five readings of rest [Pa]
 */
export function suctionRest(suction: Course, motorStartS: number): SuctionRest | null {
  const { timesS, values } = courseBetween(suction, Number.NEGATIVE_INFINITY, motorStartS);
  const sure = courseBetween({ timesS, values }, motorStartS - SURE_REST_S, motorStartS).values;
  const sample = sure.length < LEAST_REST_READINGS ? values : sure;
  if (sample.length < LEAST_REST_READINGS) return null;
  const middlePa = median([...sample]);
  const digitPa = smallestStep(values);
  const reachPa = Math.max(
    WILD_DEVIATIONS * medianAbsoluteDeviation([...sample]),
    Number.isFinite(digitPa) ? FLICKERING_DIGITS * digitPa : 0,
  );
  const isWild = (value: number): boolean => Math.abs(value - middlePa) > reachPa;
  const from = restFrom(values, isWild);
  const tame = values.flatMap((pa, index) =>
    index < from || isWild(pa) ? [] : [{ pa, atS: timesS[index] ?? Number.NaN }],
  );
  if (tame.length < LEAST_REST_READINGS) return null;
  const pas = tame.map(({ pa }) => pa);
  return {
    meanPa: mean(pas),
    meanAtS: mean(tame.map(({ atS }) => atS)),
    noisePa: sampleStandardDeviation(pas),
    count: pas.length,
  };
}
