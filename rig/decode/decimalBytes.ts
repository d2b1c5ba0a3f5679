import { parseDecimal } from './channelReader.ts';

/**
 * A whole number of so many digits is below 2^53, and a power of ten is exact up to 10^22: their quotient is rounded once, and
 * so is the double nearest to the decimal number.
 *
 * Source: Clinger, How to read floating point numbers accurately, PLDI 1990 (the exact short cases).
 */
const MOST_EXACT_DIGITS = 15;

/** 10^0 and up, each exact. */
export const POWERS_OF_TEN = Float64Array.from({ length: MOST_EXACT_DIGITS + 1 }, (_, exponent) => 10 ** exponent);

/** What a plain cell may hold; anything else (quotes, words, signs of other scripts) makes it an irregular one. */
const PLAIN_CELL = /^[\d+\-.eE \t]*$/;

/** Longer cells are irregular: no instrument writes such numbers [byte]. */
const LONGEST_CELL = 64;

/**
 * Reads a cell of any length, blanks around the number allowed.
 *
 * @param bytes - what it stands in [-]
 * @param start - its first byte [byte]
 * @param end - one behind its last [byte]
 * @returns what Number() gives, bit for bit; NaN for a blank cell; null if it is no decimal number [the unit of the column]
 */
export function plainCell(bytes: Uint8Array, start: number, end: number): number | null {
  if (end - start > LONGEST_CELL) return null;
  const text = String.fromCharCode(...bytes.subarray(start, end));
  if (!PLAIN_CELL.test(text)) return null;
  return text.trim() === '' ? Number.NaN : parseDecimal(text);
}
