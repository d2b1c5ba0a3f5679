import { median } from 'simple-statistics';
import type { ChannelName } from '../../channels.ts';
import { QUALITY, type Readings } from '../../readings.ts';
import type { BenchRecord } from '../../records/benchRecord.ts';

/** Good values of a channel with their times, oldest first. */
export type Course = { readonly timesS: readonly number[]; readonly values: readonly number[] };

const NONE: Course = { timesS: [], values: [] };

/** A channel repeats itself between its own updates where at most this share of its readings is new [1]. */
const NEW_SHARE = 0.4;

/**
 * Good values of a channel with their times.
 *
 * @param readings - the run [n readings, oldest first]
 * @param channel - whose values [-]
 * @returns its course; empty where the bench has no such channel [s, SI]
 */
export function channelCourse(readings: Readings, channel: ChannelName): Course {
  const column = readings.channels[channel];
  if (column === undefined) return NONE;
  const timesS: number[] = [];
  const values: number[] = [];
  for (const [index, quality] of column.quality.entries()) {
    if (quality !== QUALITY.good) continue;
    timesS.push(readings.elapsedS[index] ?? Number.NaN);
    values.push(column.values[index] ?? Number.NaN);
  }
  return { timesS, values };
}

/**
 * Lag of a channel as the bench record states it.
 *
 * @param bench - bench record [-]
 * @param channel - which [-]
 * @returns its lag; 0 for a channel that the bench has not [s]
 */
export function statedLagS(bench: BenchRecord, channel: 'speed' | 'flow' | 'suctionPressure'): number {
  return bench.channels.find((entry) => entry.channel === channel)?.lagS ?? 0;
}

/**
 * The part of a course between two times, ends included.
 *
 * @param course - rising times [s]
 * @param fromS - start [s]
 * @param untilS - end [s]
 * @returns that part [s, SI]
 */
export function courseBetween(course: Course, fromS: number, untilS: number): Course {
  const { timesS, values } = course;
  const first = timesS.findIndex((timeS) => timeS >= fromS);
  if (first < 0) return NONE;
  const beyond = timesS.findIndex((timeS) => timeS > untilS);
  const end = beyond < 0 ? timesS.length : beyond;
  return { timesS: timesS.slice(first, end), values: values.slice(first, end) };
}

/**
 * Typical time between two readings.
 *
 * @param timesS - of the readings, rising [s]
 * @returns median interval; 0 for fewer than two readings [s]
 */
export function readingIntervalS(timesS: readonly number[]): number {
  if (timesS.length < 2) return 0;
  return median(timesS.slice(1).map((timeS, index) => timeS - (timesS[index] ?? timeS)));
}

/**
 * A channel that repeats itself between its own updates, read at those updates only; any other as it is.
 *
 * @param course - rising times [s]
 * @param fromS - from here on the quantity is known to move [s]
 * @param untilS - and until here [s]
 * @returns the course at its own updates [s, SI]
 */
export function atUpdates(course: Course, fromS: number, untilS: number): Course {
  const moving = courseBetween(course, fromS, untilS);
  const changesS = moving.timesS.filter((_, at) => at > 0 && moving.values[at] !== moving.values[at - 1]);
  if (changesS.length < 3 || changesS.length > NEW_SHARE * moving.timesS.length) return course;
  const updateS = readingIntervalS(changesS);
  const timesS: number[] = [];
  const values: number[] = [];
  for (const [index, timeS] of course.timesS.entries()) {
    const value = course.values[index] ?? Number.NaN;
    const isNew = index === 0 || value !== course.values[index - 1];
    // A hundredth of tolerance: updates do not fall on readings.
    if (!isNew && timeS - (timesS.at(-1) ?? timeS) < 0.99 * updateS) continue;
    timesS.push(timeS);
    values.push(value);
  }
  return { timesS, values };
}

/**
 * Running median: takes out single wild readings, and moves no edge.
 *
 * @param course - rising times [s]
 * @param widthS - dips and spikes shorter than this vanish; three readings at the least, five at the most [s]
 * @returns the course without them [s, SI]
 */
export function withoutSpikes(course: Course, widthS: number): Course {
  const { timesS, values } = course;
  const half = widthS >= 4 * readingIntervalS(timesS) ? 2 : 1;
  return {
    timesS,
    values: values.map((value, index) =>
      index < half || index >= values.length - half ? value : median(values.slice(index - half, index + half + 1)),
    ),
  };
}

/**
 * Time at which a course crosses a level between a reading and the one before it, by a straight line.
 *
 * @param course - rising times [s]
 * @param index - first reading beyond the level [-]
 * @param level - what is crossed, upwards or downwards [SI]
 * @returns the time; that of the reading where there is nothing to interpolate [s]
 */
export function crossingS(course: Course, index: number, level: number): number {
  const { timesS, values } = course;
  const afterS = timesS[index] ?? Number.NaN;
  const after = values[index] ?? Number.NaN;
  const beforeS = timesS[index - 1];
  const before = values[index - 1];
  if (beforeS === undefined || before === undefined || (before - level) * (after - level) >= 0) return afterS;
  return beforeS + ((level - before) / (after - before)) * (afterS - beforeS);
}

/**
 * First crossing of zero from which a course stays at or above it for a time.
 *
 * @param course - rising times [s]
 * @param sustainedS - how long it must stay [s]
 * @returns the crossing; null if there is none [s]
 */
export function sustainedCrossingS(course: Course, sustainedS: number): number | null {
  let startS: number | null = null;
  for (const [index, value] of course.values.entries()) {
    if (!(value >= 0)) {
      startS = null;
      continue;
    }
    startS ??= crossingS(course, index, 0);
    if ((course.timesS[index] ?? Number.NaN) - startS >= sustainedS) return startS;
  }
  return null;
}

/**
 * Value at a time, by straight lines; the nearest end's outside.
 *
 * @param course - one reading or more [s]
 * @param atS - when [s]
 * @returns the value [SI]
 */
export function valueAt(course: Course, atS: number): number {
  const { timesS, values } = course;
  let [low, high] = [0, timesS.length - 1];
  if (!(atS > (timesS[0] ?? 0))) return values[0] ?? Number.NaN;
  if (!(atS < (timesS[high] ?? 0))) return values[high] ?? Number.NaN;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if ((timesS[middle] ?? 0) <= atS) low = middle;
    else high = middle;
  }
  const [fromS, toS] = [timesS[low] ?? 0, timesS[high] ?? 1];
  const [from, to] = [values[low] ?? Number.NaN, values[high] ?? Number.NaN];
  return toS === fromS ? to : from + ((atS - fromS) / (toS - fromS)) * (to - from);
}
