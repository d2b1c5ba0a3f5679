import type { Column } from './readings.ts';

/** Rows of a block that are looked at together [-]. */
const BLOCK_ROWS = 64;

/** No such row in a block. */
const NONE = 0xffff_ffff;

/** Where a column's blocks have their extremes, so that a long stretch is searched block by block. */
export type BlockExtremes = {
  /** Row of the lowest and of the highest value of each block, and the first row that lacks one [n blocks]. */
  readonly lowest: Uint32Array<ArrayBuffer>;
  readonly highest: Uint32Array<ArrayBuffer>;
  readonly missing: Uint32Array<ArrayBuffer>;
  /** Those values once more, NaN where a block has none: side by side they are found many times sooner [n blocks]. */
  readonly lowestValues: Float64Array<ArrayBuffer>;
  readonly highestValues: Float64Array<ArrayBuffer>;
};

/** Rows found so far; −1 where there is none. */
export type ExtremeRows = { readonly lowest: number; readonly highest: number; readonly missing: number };

/**
 * Extremes of every block of a column.
 *
 * @param column - values, NaN where missing [n readings, oldest first]
 * @returns rows by block [n/64 blocks]
 */
export function blockExtremes(column: Column): BlockExtremes {
  const rowCount = column.values.length;
  const blockCount = Math.ceil(rowCount / BLOCK_ROWS);
  const blocks = {
    lowest: new Uint32Array(blockCount),
    highest: new Uint32Array(blockCount),
    missing: new Uint32Array(blockCount),
    lowestValues: new Float64Array(blockCount),
    highestValues: new Float64Array(blockCount),
  };
  for (let block = 0; block < blockCount; block += 1) {
    const found = extremesOf(column.values, block * BLOCK_ROWS, Math.min(rowCount, (block + 1) * BLOCK_ROWS));
    blocks.lowest[block] = found.lowest < 0 ? NONE : found.lowest;
    blocks.highest[block] = found.highest < 0 ? NONE : found.highest;
    blocks.missing[block] = found.missing < 0 ? NONE : found.missing;
    blocks.lowestValues[block] = column.values[found.lowest] ?? Number.NaN;
    blocks.highestValues[block] = column.values[found.highest] ?? Number.NaN;
  }
  return blocks;
}

/** Extremes of a stretch, row by row in local variables alone: millions of values pass here. */
function extremesOf(values: Float64Array, from: number, to: number): ExtremeRows {
  let [lowest, highest, missing] = [-1, -1, -1];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let row = from; row < to; row += 1) {
    const value = values[row] ?? Number.NaN;
    if (value >= low && value <= high) continue;
    if (value < low) {
      low = value;
      lowest = row;
    }
    if (value > high) {
      high = value;
      highest = row;
    }
    if (missing < 0 && Number.isNaN(value)) missing = row;
  }
  return { lowest, highest, missing };
}

/** The same of whole blocks, by what is known of each. */
function extremesOfBlocks(blocks: BlockExtremes, from: number, to: number): ExtremeRows {
  const { lowestValues, highestValues } = blocks;
  let [lowest, highest, missing] = [-1, -1, -1];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  for (let block = from; block < to; block += 1) {
    const lowValue = lowestValues[block] ?? Number.NaN;
    if (lowValue < low) {
      low = lowValue;
      lowest = block;
    }
    const highValue = highestValues[block] ?? Number.NaN;
    if (highValue > high) {
      high = highValue;
      highest = block;
    }
    if (missing < 0 && blocks.missing[block] !== NONE) missing = block;
  }
  return {
    lowest: blocks.lowest[lowest] ?? -1,
    highest: blocks.highest[highest] ?? -1,
    missing: blocks.missing[missing] ?? -1,
  };
}

/** Of two stretches, one behind the other: of equal values the earlier row stays. */
function fartherOf(values: Float64Array, earlier: ExtremeRows, later: ExtremeRows): ExtremeRows {
  const isLower = earlier.lowest < 0 || (values[later.lowest] ?? Number.NaN) < (values[earlier.lowest] ?? Number.NaN);
  const isHigher =
    earlier.highest < 0 || (values[later.highest] ?? Number.NaN) > (values[earlier.highest] ?? Number.NaN);
  return {
    lowest: isLower ? later.lowest : earlier.lowest,
    highest: isHigher ? later.highest : earlier.highest,
    missing: earlier.missing < 0 ? later.missing : earlier.missing,
  };
}

/**
 * The lowest and the highest value of a stretch, and the first that is missing in it.
 *
 * @param column - values, NaN where missing [n readings, oldest first]
 * @param from - first row of the stretch [-]
 * @param to - one behind its last [-]
 * @param blocks - of the same column; null: row by row [-]
 * @returns their rows; −1 where there is none [-]
 */
export function extremeRows(
  column: Column,
  from: number,
  to: number,
  blocks: BlockExtremes | null = null,
): ExtremeRows {
  const { values } = column;
  const firstBlock = Math.ceil(from / BLOCK_ROWS);
  const behindBlocks = Math.floor(to / BLOCK_ROWS);
  if (blocks === null || firstBlock >= behindBlocks) return extremesOf(values, from, to);
  const before = extremesOf(values, from, firstBlock * BLOCK_ROWS);
  const within = extremesOfBlocks(blocks, firstBlock, behindBlocks);
  const behind = extremesOf(values, behindBlocks * BLOCK_ROWS, to);
  return fartherOf(values, fartherOf(values, before, within), behind);
}
