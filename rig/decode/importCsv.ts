import type { Readings } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { parseDecimal } from './channelReader.ts';
import { type ColumnRoom, roomFor } from './columnRoom.ts';
import { CsvColumns } from './csvColumns.ts';
import { CsvError } from './csvError.ts';
import { type ChannelHeading, csvHeadings, type Heading } from './csvHeadings.ts';
import { type CsvRow, csvRows } from './csvRows.ts';
import { scanRows } from './scanRows.ts';

const LINE_END = 0x0a;
const RETURN = 0x0d;

/** Rows in a tile: its numbers stay in the processor's cache between being read and being put into their columns. */
const TILE_ROWS = 1024;

/**
 * Reads a CSV file as the readings of a run. Headings are a channel's name and a unit of it in brackets, `elapsed [s],flow [l/min]`, in any
 * order; an empty cell is a missing value. Plain rows of numbers are scanned as bytes; from the first row that is no such row
 * on, a general parser reads the file, or says what is wrong with it.
 *
 * @param bytes - the file, UTF-8, RFC 4180 [-]
 * @param bench - values outside its channels' ranges are marked; null: none are [-]
 * @param barometerPa - added to gauge pressures [Pa]
 * @param zeroCheck - of the run: what it says to apply is taken off; null: nothing is [-]
 * @param room - for the columns; others may touch its memory meanwhile, but not write there [-]
 * @returns the readings, time from the first row on [s]
 * @throws CsvError naming line and column, and what was expected there
 */
export function importCsv(
  bytes: Uint8Array,
  bench: BenchRecord | null,
  barometerPa: number,
  zeroCheck: ZeroCheck | null = null,
  room: ColumnRoom = roomFor(bytes),
): Readings {
  const headingsEnd = plainHeadingsEnd(bytes);
  const headings = headingsEnd === null ? csvRows(bytes) : csvRows(bytes.subarray(0, headingsEnd));
  const [header] = headings;
  if (header === undefined) throw new CsvError('line 1: expected headings such as elapsed [s],flow [l/min]');
  const { elapsed, channels } = csvHeadings(header.cells);
  const columns = new CsvColumns(elapsed, channels, header.cells.length, { bench, barometerPa, zeroCheck }, room);
  const rowCount =
    headingsEnd === null
      ? addRows(headings.slice(1), elapsed, channels, columns)
      : addScanned(bytes, headingsEnd, header.cells.length, columns, (rest) =>
          addRows(rest.slice(1), elapsed, channels, columns),
        );
  if (rowCount === 0) throw new CsvError('line 2: expected a first row of readings below the headings');
  return columns.readings();
}

/** Where the first line ends that holds the headings and nothing but them; null where only a general parser can tell. */
function plainHeadingsEnd(bytes: Uint8Array): number | null {
  const end = bytes.indexOf(LINE_END) + 1;
  const headings = bytes.subarray(0, end);
  const firstReturn = headings.indexOf(RETURN);
  const quoteCount = headings.reduce((count, byte) => (byte === 0x22 ? count + 1 : count), 0);
  return end === 0 || (firstReturn !== -1 && firstReturn !== end - 2) || quoteCount % 2 === 1 ? null : end;
}

/** Scans rows while they are plain and hands the rest of the file, behind its headings, to `addRest`. */
function addScanned(
  bytes: Uint8Array,
  headingsEnd: number,
  columnCount: number,
  columns: CsvColumns,
  addRest: (rows: readonly CsvRow[]) => number,
): number {
  const lineEnd = bytes[headingsEnd - 2] === RETURN ? '\r\n' : '\n';
  const cells = new Float64Array(columnCount * TILE_ROWS);
  const wholeRowsEnd = bytes.lastIndexOf(LINE_END) + 1;
  let position = headingsEnd;
  let rowCount = 0;
  while (position < wholeRowsEnd) {
    const scanned = scanRows(bytes, position, wholeRowsEnd, columnCount, lineEnd, cells);
    const firstLine = rowCount + 2;
    columns.add(cells, scanned.rowCount, (row) => firstLine + row);
    // Room for a file of such rows throughout, and a little.
    if (rowCount === 0 && scanned.rowCount > 0) {
      columns.reserve(Math.ceil((1.02 * scanned.rowCount * bytes.length) / (scanned.position - position)) + TILE_ROWS);
    }
    rowCount += scanned.rowCount;
    position = scanned.position;
    if (!scanned.isRegular) break;
  }
  if (position === bytes.length) return rowCount;
  const rest = Buffer.concat([bytes.subarray(0, headingsEnd), bytes.subarray(position)]);
  return rowCount + addRest(csvRows(rest, rowCount));
}

/** Rows in strings; the first thing in them that is no number is refused. */
function addRows(
  rows: readonly CsvRow[],
  elapsed: Heading,
  channels: readonly ChannelHeading[],
  columns: CsvColumns,
): number {
  for (const { cells, line } of rows) {
    const numbers = new Float64Array(cells.length).fill(Number.NaN);
    for (const { index, text } of [elapsed, ...channels]) {
      const cell = cells[index] ?? '';
      const value = parseDecimal(cell);
      if (value === null && (cell !== '' || index === elapsed.index)) throw notANumber(line, text, cell);
      numbers[index] = value ?? Number.NaN;
    }
    columns.add(numbers, 1, () => line);
  }
  return rows.length;
}

function notANumber(line: number, column: string, cell: string): CsvError {
  return new CsvError(`line ${line}, ${column}: expected a number with a decimal point, got ${JSON.stringify(cell)}`);
}
