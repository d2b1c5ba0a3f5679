import type { Readings } from '../readings.ts';
import { type BegunBlock, continuedBlock, copyOfColumns } from './begunBlock.ts';
import {
  HOLD_CHANNELS,
  type HoldChannel,
  type HoldColumns,
  type HoldSearch,
  holdColumns,
  mapHoldChannels,
  type Stretch,
  stillnessLimit,
} from './holdSearch.ts';
import { steadyMean } from './wildReadings.ts';

/** Place of the speed among the hold channels. */
const SPEED = HOLD_CHANNELS.indexOf('speed');

/** Means are taken over this long before stillness is judged: shorter noise is not movement [s]. */
const BLOCK_S = 0.5;

/** Nobody saw what happened in a gap longer than this share of the least duration [1]. */
const LONGEST_GAP_SHARE = 0.5;

/** Times a whole number of blocks apart may differ by the rounding of their sum [s]. */
const ROUNDING_S = 1e-9;

type Block = Stretch & {
  readonly startS: number;
  readonly endS: number;
  /** As HOLD_CHANNELS has them. */
  readonly means: Float64Array;
  /** Largest mean flow up to this block: what comes later must not change what was found. */
  readonly largestFlowM3PerS: number;
};

/** Finds holds while readings come in; the same ones however they are cut into pieces. */
export type HoldFinder = {
  /** Takes further readings; their times go on from those before. @throws RangeError if a hold channel has no column */
  readonly push: (readings: Readings) => void;
  /** Holds that are over, counted from the first reading pushed. */
  readonly ended: () => readonly Stretch[];
  /** The hold that still lasts and is long enough already; null: none. */
  readonly present: () => Stretch | null;
  /** No more readings will come: all holds of the run. */
  readonly finish: () => readonly Stretch[];
};

/** One behind the last reading of the block that begins at startS; times never decrease, so it is found by halving. */
function endOfBlock(elapsedS: Float64Array, from: number, startS: number): number {
  const isInside = (index: number): boolean => (elapsedS[index] ?? Number.NaN) < startS + BLOCK_S;
  let reach = 1;
  while (isInside(from + reach)) reach *= 2;
  let low = from;
  let high = Math.min(elapsedS.length, from + reach);
  while (low < high) {
    const middle = (low + high) >> 1;
    if (isInside(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}

/**
 * Finds the holds of a run while it lasts. Half-second blocks begin with the first reading, each where the one before
 * ended, and are judged by what came before them alone: so the answer depends neither on how the readings were cut nor on
 * what comes later.
 *
 * @param search - limits, barometer [Pa] and lead [s]
 * @returns the finder; findHolds says what a hold is [-]
 */
export function createHoldFinder(search: HoldSearch): HoldFinder {
  const holds: Stretch[] = [];
  let still: Block[] = [];
  /** Of the means of what stands still, as HOLD_CHANNELS has them. */
  const lowest = new Float64Array(HOLD_CHANNELS.length);
  const highest = new Float64Array(HOLD_CHANNELS.length);
  let begun: BegunBlock | null = null;
  let pushedCount = 0;
  let largestFlowM3PerS = 0;

  /**
   * Closes the blocks between the bounds. One column after the other: memory is read far faster along a column than across
   * them, and no channel's means depend on another's.
   */
  const closeBlocks = (
    columns: HoldColumns,
    elapsedS: Float64Array,
    bounds: readonly number[],
    offset: number,
  ): void => {
    const blockCount = bounds.length - 1;
    const largestSoFar = new Float64Array(blockCount);
    const meansOf = (channel: HoldChannel): Float64Array => {
      const limitAt = (value: number): number => stillnessLimit(channel, value, largestFlowM3PerS, search);
      const means = new Float64Array(blockCount);
      for (let block = 0; block < blockCount; block += 1) {
        means[block] = steadyMean(columns[channel], bounds[block] ?? 0, bounds[block + 1] ?? 0, limitAt);
        if (channel !== 'flow') continue;
        largestFlowM3PerS = Math.max(largestFlowM3PerS, means[block] || 0);
        largestSoFar[block] = largestFlowM3PerS;
      }
      return means;
    };
    const means = mapHoldChannels(meansOf);
    for (let block = 0; block < blockCount; block += 1) {
      const [first, end] = [bounds[block] ?? 0, bounds[block + 1] ?? 0];
      take({
        first: offset + first,
        end: offset + end,
        startS: elapsedS[first] ?? Number.NaN,
        endS: elapsedS[end - 1] ?? Number.NaN,
        means: Float64Array.from(HOLD_CHANNELS, (channel) => means[channel][block] ?? Number.NaN),
        largestFlowM3PerS: largestSoFar[block] ?? Number.NaN,
      });
    }
  };

  const begin = (): void => {
    still = [];
    lowest.fill(Number.POSITIVE_INFINITY);
    highest.fill(Number.NEGATIVE_INFINITY);
  };
  begin();

  /** Whether a block's means stay with those of what stands still. */
  const isStill = ({ means, largestFlowM3PerS }: Block): boolean =>
    HOLD_CHANNELS.every((channel, place) => {
      const mean = means[place] ?? Number.NaN;
      const low = Math.min(mean, lowest[place] ?? Number.NaN);
      const high = Math.max(mean, highest[place] ?? Number.NaN);
      return high - low <= 2 * stillnessLimit(channel, (low + high) / 2, largestFlowM3PerS, search);
    });

  /** Whether the block goes on with what stands still; if so it becomes part of it. */
  const goesOn = (block: Block): boolean => {
    if (!((block.means[SPEED] ?? Number.NaN) > 0)) return false;
    const gapS = block.startS - (still.at(-1)?.endS ?? block.startS);
    if (gapS > LONGEST_GAP_SHARE * search.limits.minDurationS || !isStill(block)) return false;
    still.push(block);
    block.means.forEach((mean, place) => {
      lowest[place] = Math.min(mean, lowest[place] ?? Number.NaN);
      highest[place] = Math.max(mean, highest[place] ?? Number.NaN);
    });
    return true;
  };

  /** A stretch that ended too early is tried again without its first block. */
  const take = (newest: Block): void => {
    let waiting = [newest];
    while (waiting.length > 0) {
      const [block, ...others] = waiting;
      if (block === undefined) return;
      if (goesOn(block)) {
        waiting = others;
      } else if (still.length === 0) {
        waiting = others;
      } else {
        const hold = holdOf(still, search);
        if (hold !== null) holds.push(hold);
        waiting = hold === null ? [...still.slice(1), ...waiting] : waiting;
        begin();
      }
    }
  };

  const push = (readings: Readings): void => {
    const columns = holdColumns(readings);
    if ('missing' in columns) throw new RangeError(`readings: no channel ${columns.missing.join(', ')}`);
    const { elapsedS } = readings;
    let from = 0;
    if (begun !== null) {
      from = endOfBlock(elapsedS, 0, begun.elapsedS[0] ?? 0);
      begun = continuedBlock(begun, elapsedS, columns, from);
      if (from < elapsedS.length) {
        closeBlocks(begun.columns, begun.elapsedS, [0, begun.elapsedS.length], begun.first);
        begun = null;
      }
    }
    const bounds = [from];
    while (from < elapsedS.length) {
      const end = endOfBlock(elapsedS, from, elapsedS[from] ?? 0);
      if (end === elapsedS.length) {
        begun = {
          first: pushedCount + from,
          elapsedS: elapsedS.slice(from),
          columns: copyOfColumns(columns, from, end),
        };
      } else {
        bounds.push(end);
      }
      from = end;
    }
    closeBlocks(columns, elapsedS, bounds, pushedCount);
    pushedCount += elapsedS.length;
  };

  return {
    push,
    ended: () => [...holds],
    present: () => holdOf(still, search),
    finish: () => {
      if (begun !== null) closeBlocks(begun.columns, begun.elapsedS, [0, begun.elapsedS.length], begun.first);
      begun = null;
      const last = holdOf(still, search);
      if (last !== null) holds.push(last);
      begin();
      return [...holds];
    },
  };
}

/** The hold in a stretch that stood still: without its lead, and long enough; otherwise null. */
function holdOf(still: readonly Block[], { leadS, limits }: HoldSearch): Stretch | null {
  const countsFromS = (still[0]?.startS ?? 0) + leadS - ROUNDING_S;
  const first = still.find(({ startS }) => startS >= countsFromS);
  const last = still.at(-1);
  if (first === undefined || last === undefined) return null;
  return last.endS - first.startS >= limits.minDurationS ? { first: first.first, end: last.end } : null;
}
