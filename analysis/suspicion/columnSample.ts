import { type Column, QUALITY } from '../readings.ts';

/** So many readings of a column are looked at, evenly taken: a sensor that sticks or clips for seconds shows in them. */
const MOST_SAMPLED = 16_384;

/** The shaft turns from here up [rev/s]. At rest a healthy instrument may well repeat itself. */
const TURNING_REV_PER_S = 0.5;

/** Readings of a column while the shaft turned, evenly taken, oldest first. */
export type ColumnSample = {
  readonly values: Float64Array;
  readonly atS: Float64Array;
  /** 1 where the very next reading of the column was the same. */
  readonly repeats: Uint8Array;
  /** Where in the column each was taken. */
  readonly index: Uint32Array;
  /** The same values, lowest first. */
  readonly sorted: Float64Array;
};

function hasValue(quality: number | undefined): boolean {
  return quality === QUALITY.good || quality === QUALITY.outOfRange;
}

/** Where samples are taken: evenly, while the shaft turned, oldest first. */
export type SamplePlaces = { readonly index: Uint32Array; readonly atS: Float64Array };

/**
 * Chooses where the columns of a run are looked at.
 *
 * @param speed - the shaft's; null where the bench has none, then all readings count [n readings, rev/s]
 * @param elapsedS - their times [s]
 * @returns at most 16 384 readings; the last is never among them, since each is held against the one after it [-]
 */
export function samplePlaces(speed: Column | null, elapsedS: Float64Array): SamplePlaces {
  const stride = Math.max(1, Math.ceil(elapsedS.length / MOST_SAMPLED));
  const index = new Uint32Array(Math.ceil(elapsedS.length / stride));
  const atS = new Float64Array(index.length);
  let count = 0;
  for (let place = 0; place < elapsedS.length - 1; place += stride) {
    if (speed !== null && !((speed.values[place] ?? 0) > TURNING_REV_PER_S)) continue;
    index[count] = place;
    atS[count] = elapsedS[place] ?? Number.NaN;
    count += 1;
  }
  return { index: index.subarray(0, count), atS: atS.subarray(0, count) };
}

/**
 * Takes the sample. Values beyond a sensor's range belong to it: that is where sensors clip.
 *
 * @param column - values with their quality [n readings, oldest first]
 * @param places - where it is looked at [-]
 * @returns the readings there that have a value [unit of the column]
 */
export function sampleColumn(column: Column, places: SamplePlaces): ColumnSample {
  const { values, quality } = column;
  const most = places.index.length;
  const sampled = new Float64Array(most);
  const atS = new Float64Array(most);
  const repeats = new Uint8Array(most);
  const index = new Uint32Array(most);
  let count = 0;
  for (let place = 0; place < most; place += 1) {
    const at = places.index[place] ?? 0;
    if (!hasValue(quality[at])) continue;
    const value = values[at] ?? Number.NaN;
    sampled[count] = value;
    atS[count] = places.atS[place] ?? Number.NaN;
    repeats[count] = value === values[at + 1] ? 1 : 0;
    index[count] = at;
    count += 1;
  }
  const taken = sampled.subarray(0, count);
  return {
    values: taken,
    atS: atS.subarray(0, count),
    repeats: repeats.subarray(0, count),
    index: index.subarray(0, count),
    sorted: taken.slice().sort(),
  };
}

/** A stretch of a sample that holds one and the same value, [first, end). */
export type StillStretch = {
  readonly value: number;
  readonly first: number;
  readonly end: number;
  readonly durationS: number;
};

/** The longest stretch without the least change; null in an empty sample. */
export function longestStillStretch({ values, atS, repeats }: ColumnSample): StillStretch | null {
  let longest: StillStretch | null = null;
  let first = 0;
  for (let index = 0; index < values.length; index += 1) {
    // Repeats are asked of the reading before: the pair between two samples must be the same as well.
    if (values[index] !== values[first] || (index > first && repeats[index - 1] === 0)) first = index;
    const durationS = (atS[index] ?? 0) - (atS[first] ?? 0);
    if (longest === null || durationS > longest.durationS) {
      longest = { value: values[index] ?? Number.NaN, first, end: index + 1, durationS };
    }
  }
  return longest;
}

/**
 * How often a reading is followed by the same once more, among readings other than one value: near nothing where the
 * instrument's noise is many steps wide, near 1 where it is less than a step.
 *
 * @param sample - of the column [-]
 * @param exceptValue - readings of this value do not count [unit of the column]
 * @returns share of repeats [1] and of how many readings it is one [-]
 */
export function repeatShare(
  sample: ColumnSample,
  exceptValue: number,
): { readonly share: number; readonly ofCount: number } {
  const { values, repeats } = sample;
  let ofCount = 0;
  let repeatCount = 0;
  for (let index = 0; index < values.length; index += 1) {
    if (values[index] === exceptValue) continue;
    ofCount += 1;
    repeatCount += repeats[index] ?? 0;
  }
  return { share: ofCount === 0 ? 1 : repeatCount / ofCount, ofCount };
}

/** Readings heaped up at an end of what a column ever said. */
export type Plateau = {
  readonly value: number;
  readonly end: 'lowest' | 'highest';
  readonly count: number;
  /** How many readings have the next value inwards. */
  readonly nextCount: number;
};

/** So many readings at the end make a plateau [-, 1]; so many beyond it may be wild [1]. */
const LEAST_IN_PLATEAU = 20;
const LEAST_PLATEAU_SHARE = 0.002;
const MOST_BEYOND_SHARE = 0.001;

/**
 * The heap at one end of a sample: the outermost value that many readings share, single wild readings beyond it left aside.
 *
 * @param sample - of the column [-]
 * @param end - which end [-]
 * @returns the plateau; null where there is none [unit of the column]
 */
export function plateauAt(sample: ColumnSample, end: Plateau['end']): Plateau | null {
  const { sorted } = sample;
  const count = sorted.length;
  const from = (place: number): number | undefined => sorted[end === 'highest' ? count - 1 - place : place];
  let candidate: { value: number; count: number } | null = null;
  let start = 0;
  while (start < count) {
    const value = from(start);
    let next = start + 1;
    while (next < count && from(next) === value) next += 1;
    if (value === undefined) return null;
    if (candidate !== null) return { ...candidate, end, nextCount: next - start };
    if (next - start >= Math.max(LEAST_IN_PLATEAU, LEAST_PLATEAU_SHARE * count)) {
      candidate = { value, count: next - start };
    } else if (next > MOST_BEYOND_SHARE * count) {
      return null;
    }
    start = next;
  }
  return candidate === null ? null : { ...candidate, end, nextCount: 0 };
}
