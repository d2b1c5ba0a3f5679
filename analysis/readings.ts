import type { ChannelName } from './channels.ts';

/** Why a value in a column is, or is not, to be trusted. A number per reading, beside the value. */
export const QUALITY = {
  good: 0,
  /** The line or the field was unusable: the value is NaN. */
  missing: 1,
  /** The sensor stood outside its stated range: the value is kept, and never averaged. */
  outOfRange: 2,
  /** A current loop that says its transmitter failed (NAMUR NE 43): the value is kept, and never averaged. */
  sensorFault: 3,
} as const;

export type Column = {
  /** SI values, oldest first; NaN where missing. */
  readonly values: Float64Array;
  /** A {@link QUALITY} code for each value. */
  readonly quality: Uint8Array;
};

/**
 * The good values of a column.
 *
 * @param column - values with their quality [n readings, oldest first]
 * @param first - first reading that counts [-]
 * @param end - one behind the last [-]
 * @returns good values alone, in their order [unit of the column]
 */
export function goodValues(column: Column, first = 0, end = column.values.length): number[] {
  const good: number[] = [];
  for (let index = first; index < end; index += 1) {
    if (column.quality[index] === QUALITY.good) good.push(column.values[index] ?? Number.NaN);
  }
  return good;
}

/**
 * Whether every value of a column is good, four codes looked at together: good is zero.
 *
 * @param quality - of a column [n readings]
 * @returns true for a column without a gap [-]
 */
export function isAllGood(quality: Uint8Array): boolean {
  const head = Math.min(quality.length, (4 - (quality.byteOffset % 4)) % 4);
  const wordCount = (quality.length - head) >> 2;
  for (let index = 0; index < head; index += 1) if (quality[index] !== QUALITY.good) return false;
  const words = new Uint32Array(quality.buffer, quality.byteOffset + head, wordCount);
  for (let index = 0; index < wordCount; index += 1) if (words[index] !== 0) return false;
  for (let index = head + 4 * wordCount; index < quality.length; index += 1) {
    if (quality[index] !== QUALITY.good) return false;
  }
  return true;
}

/**
 * A run's readings: one row a reading, oldest first. Columns are equally long; a bench without a channel has
 * no column for it.
 */
export type Readings = {
  /** Time since the first reading [s], never decreasing. */
  readonly elapsedS: Float64Array;
  readonly channels: Readonly<Partial<Record<ChannelName, Column>>>;
  /** Where the time came from: the bench's own clock or the arrival of its lines. */
  readonly clock: 'device' | 'arrival';
  /** How the bench's clock ran against the host's; null without one, or where nothing arrived (an import). */
  readonly clockTie: ClockTie | null;
};

/** The bench's clock held against the host's monotonic clock by a robust straight line. */
export type ClockTie = {
  /** Seconds of the bench in a second of the host, less the speed-up of a practice bench [1]. */
  readonly rateError: number;
  /** Median delay of a line beyond the quickest [s]. */
  readonly medianDelayS: number;
  /** Jumps of the clock that were bridged. */
  readonly jumpCount: number;
};

/** What the decoder saw in a journal that is not a reading. */
export type LineCensus = {
  readonly lineCount: number;
  readonly readingCount: number;
  /** Lines that the bench sent to be read by people (those that begin with '#'). */
  readonly noteCount: number;
  /** Bad lines by kind; kinds that did not occur are absent. */
  readonly badLineCounts: Readonly<Partial<Record<BadLineKind, number>>>;
  /** Readings that the bench counted and that never came. */
  readonly lostReadingCount: number;
  readonly reconnectCount: number;
};

export const BAD_LINE_KINDS = [
  'checksum',
  'fieldCount',
  'notANumber',
  'prefix',
  'tooLong',
  'torn',
  'clockJump',
] as const;
export type BadLineKind = (typeof BAD_LINE_KINDS)[number];

/** Lines that held no reading, and where the bench came back after it was gone, in the order in which they came. */
export type BadLines = {
  /** Time since the first reading, by arrival after the last good one; never decreasing [s]. */
  readonly elapsedS: Float64Array;
  /** Place in {@link BAD_LINE_KINDS} for each; one beyond them: the bench came back. */
  readonly kinds: Uint8Array;
};

export const NO_BAD_LINES: BadLines = { elapsedS: new Float64Array(0), kinds: new Uint8Array(0) };

/**
 * Where a time stands among others, found by halving.
 *
 * @param timesS - never decreasing [s]
 * @param timeS - looked for [s]
 * @returns the first place at or after it; how many there are where all are before it [-]
 */
export function firstAtOrAfter(timesS: ArrayLike<number>, timeS: number): number {
  let [low, high] = [0, timesS.length];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if ((timesS[middle] ?? Number.NaN) < timeS) low = middle + 1;
    else high = middle;
  }
  return low;
}
