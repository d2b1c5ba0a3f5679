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
  };
  for (let block = 0; block < blockCount; block += 1) {
    const found = extremesOf(column.values, block * BLOCK_ROWS, Math.min(rowCount, (block + 1) * BLOCK_ROWS));
    blocks.lowest[block] = found.lowest < 0 ? NONE : found.lowest;
    blocks.highest[block] = found.highest < 0 ? NONE : found.highest;
    blocks.missing[block] = found.missing < 0 ? NONE : found.missing;
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
  if (blocks === null) return extremesOf(values, from, to);
  let [lowest, highest, missing] = [-1, -1, -1];
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  // One row and a block's three known ones are looked at alike.
  const look = (row: number): void => {
    const value = values[row] ?? Number.NaN;
    if (value < low) {
      low = value;
      lowest = row;
    }
    if (value > high) {
      high = value;
      highest = row;
    }
    if (missing < 0 && Number.isNaN(value)) missing = row;
  };
  for (let row = from; row < to; ) {
    if (row % BLOCK_ROWS !== 0 || row + BLOCK_ROWS > to) {
      look(row);
      row += 1;
      continue;
    }
    const block = row / BLOCK_ROWS;
    const [first, second, third] = [blocks.lowest[block], blocks.highest[block], blocks.missing[block]];
    if (first !== undefined && first !== NONE) look(first);
    if (second !== undefined && second !== NONE) look(second);
    if (third !== undefined && third !== NONE) look(third);
    row += BLOCK_ROWS;
  }
  return { lowest, highest, missing };
}
