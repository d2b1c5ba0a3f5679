import { type Course, courseBetween, crossingS, readingIntervalS, withoutSpikes } from './course.ts';
import { type EventWithSources, movedBy, timingSource, unseen } from './startEvent.ts';
import type { SuctionRest } from './suctionRest.ts';

/** The suction has begun when it stands this far below rest: some 12 mm of oil [Pa]. */
const FIRST_SUCTION_PA = 100;
/** A noisier channel asks for more: so many standard deviations of a median of three readings. */
const NOISE_DEVIATIONS = 5;
/** The median of three readings has this share of one reading's standard deviation, for normal noise [1]. */
const MEDIAN_NOISE_SHARE = 0.67;
/** It must stay there so long, and for three readings at the least [s]. */
const STAYS_S = 0.1;
const LEAST_READINGS = 3;

/**
 * First suction: the pressure falls to 0.1 kPa below what it stood at before the motor started, and stays below.
 *
 * @param suction - absolute [s, Pa]
 * @param motorStartS - nothing before counts [s]
 * @param rest - of the channel [Pa]
 * @param lagS - of the channel [s]
 * @returns the event [s]
 */
export function findFirstSuction(
  suction: Course,
  motorStartS: number,
  rest: SuctionRest | null,
  lagS: number,
): EventWithSources {
  if (rest === null) {
    return unseen('NOT_TOLD', 'The record shows no rest before the motor start: where the suction began is not told.');
  }
  const noisePa = MEDIAN_NOISE_SHARE * rest.noisePa;
  const levelPa = rest.meanPa - Math.max(FIRST_SUCTION_PA, NOISE_DEVIATIONS * noisePa);
  const course = withoutSpikes(courseBetween(suction, motorStartS, Number.POSITIVE_INFINITY), STAYS_S);
  const intervalS = readingIntervalS(suction.timesS);
  const staysReadings = Math.max(LEAST_READINGS, Math.round(STAYS_S / Math.max(intervalS, 1e-3)));
  const isBelow = (value: number): boolean => value <= levelPa;
  const index = course.values.findIndex((_, at) => {
    const next = course.values.slice(at, at + staysReadings);
    return next.length === staysReadings && next.every(isBelow);
  });
  if (index < 0) return unseen('DID_NOT_HAPPEN', 'The suction never fell by 0.1 kPa.');
  const stayedS = crossingS(course, index, levelPa);
  const touchedS = crossingS(course, course.values.findIndex(isBelow), levelPa);
  // The gas swings on the column at first, and may dip to the level before it stays.
  const fellS = (touchedS + stayedS) / 2;
  const laterPa = course.values[index + LEAST_READINGS - 1] ?? levelPa;
  const fallPaPerS = Math.max(1, (rest.meanPa - laterPa) / Math.max(intervalS, fellS - motorStartS + 2 * intervalS));
  const sources = [
    timingSource(
      'timing.firstSuction',
      'first suction, between two readings and two dips',
      intervalS + stayedS - fellS,
      'random',
    ),
    timingSource(
      'timing.firstSuctionNoise',
      'first suction, noise of its channel',
      (Math.sqrt(3) * noisePa) / fallPaPerS,
      'random',
    ),
    timingSource('timing.suctionLag', 'lag of the suction channel', lagS / 2, 'calibration'),
  ];
  return { event: { seen: true, atS: movedBy(fellS - lagS / 2, sources), from: 'suctionPressure' }, sources };
}
