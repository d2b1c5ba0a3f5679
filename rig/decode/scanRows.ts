import { POWERS_OF_TEN, plainCell } from './decimalBytes.ts';

const LINE_END = 0x0a;
const RETURN = 0x0d;
const COMMA = 0x2c;
const PLUS = 0x2b;
const MINUS = 0x2d;
const POINT = 0x2e;
const ZERO = 0x30;

/** A whole number of so many digits finds room in 32 bits. */
const MOST_SHORT_DIGITS = 9;

export type ScannedRows = {
  /** Where the first row begins that was not read [byte]. */
  readonly position: number;
  readonly rowCount: number;
  /** False: that row is not a plain one, and is left to a parser that says what is wrong with it. */
  readonly isRegular: boolean;
};

/**
 * Reads rows of plain decimal numbers from bytes, row by row, for as long as they are regular: so many cells, each a number or
 * empty, the same line end throughout. Numbers are those that Number() gives, bit for bit.
 *
 * @param bytes - a file or a piece of one [-]
 * @param start - where a row begins [byte]
 * @param end - one behind the line end of the last row to be read [byte]
 * @param columnCount - cells in a row, at least 1 [-]
 * @param lineEnd - what stands at the end of each row [-]
 * @param cells - takes the numbers, NaN for an empty cell; as many whole rows are read as find room [row by row]
 * @returns how far it came [-]
 */
export function scanRows(
  bytes: Uint8Array,
  start: number,
  end: number,
  columnCount: number,
  lineEnd: '\n' | '\r\n',
  cells: Float64Array,
): ScannedRows {
  const lastRoom = cells.length - columnCount;
  const rowEnd = lineEnd === '\n' ? LINE_END : RETURN;
  let rowStart = start;
  let filled = 0;
  while (rowStart < end && filled <= lastRoom) {
    let at = rowStart;
    for (let column = 1; column <= columnCount; column += 1) {
      const cellStart = at;
      let byte = bytes[at] ?? LINE_END;
      const isNegative = byte === MINUS;
      if (isNegative || byte === PLUS) at += 1;
      const firstDigit = at;
      // Unsigned, so that one comparison tells a digit; whole numbers of 32 bits, since these are the quickest.
      let digit = ((bytes[at] ?? LINE_END) - ZERO) >>> 0;
      let whole = 0;
      while (digit <= 9) {
        whole = (whole * 10 + digit) | 0;
        at += 1;
        digit = ((bytes[at] ?? LINE_END) - ZERO) >>> 0;
      }
      byte = bytes[at] ?? LINE_END;
      let digitCount = at - firstDigit;
      let magnitude = whole;
      if (byte === POINT) {
        at += 1;
        const behindPoint = at;
        digit = ((bytes[at] ?? LINE_END) - ZERO) >>> 0;
        while (digit <= 9) {
          whole = (whole * 10 + digit) | 0;
          at += 1;
          digit = ((bytes[at] ?? LINE_END) - ZERO) >>> 0;
        }
        byte = bytes[at] ?? LINE_END;
        digitCount += at - behindPoint;
        magnitude = whole / (POWERS_OF_TEN[at - behindPoint] ?? 1);
      }
      const expected = column === columnCount ? rowEnd : COMMA;
      if (byte === expected && digitCount > 0 && digitCount <= MOST_SHORT_DIGITS) {
        cells[filled] = isNegative ? -magnitude : magnitude;
      } else {
        at = cellEnd(bytes, at);
        const value = bytes[at] === expected ? plainCell(bytes, cellStart, at) : null;
        if (value === null) return { position: rowStart, rowCount: filledRows(filled, columnCount), isRegular: false };
        cells[filled] = value;
      }
      filled += 1;
      at += 1;
    }
    if (rowEnd === RETURN) {
      if (bytes[at] !== LINE_END) {
        return { position: rowStart, rowCount: filledRows(filled, columnCount) - 1, isRegular: false };
      }
      at += 1;
    }
    rowStart = at;
  }
  return { position: rowStart, rowCount: filledRows(filled, columnCount), isRegular: true };
}

/** Cells of a row that was given up do not count. */
function filledRows(filled: number, columnCount: number): number {
  return Math.floor(filled / columnCount);
}

function cellEnd(bytes: Uint8Array, from: number): number {
  let at = from;
  while (at < bytes.length && bytes[at] !== COMMA && bytes[at] !== LINE_END && bytes[at] !== RETURN) at += 1;
  return at;
}
