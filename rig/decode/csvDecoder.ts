import type { Readings } from '../../analysis/readings.ts';
import { parseDecimal } from './channelReader.ts';
import { CsvColumns, type CsvScales } from './csvColumns.ts';
import { CsvError } from './csvError.ts';
import { type ChannelHeading, csvHeadings, type Heading } from './csvHeadings.ts';
import { type CsvRow, csvRows } from './csvRows.ts';
import { scanRows } from './scanRows.ts';

const LINE_END = 0x0a;
const RETURN = 0x0d;
const QUOTE = 0x22;

/** Rows in a tile: its numbers stay in the processor's cache between being read and being put into their columns. */
const TILE_ROWS = 1024;

/** Rows more than the first tile lets expect [1]. */
const MARGIN = 1.02;

/** Headings that were read as one plain line. */
type Plain = {
  /** The line itself, to stand before what a general parser is given. */
  readonly headingBytes: Buffer;
  readonly lineEnd: '\n' | '\r\n';
  readonly columns: Columns;
  readonly cells: Float64Array;
};

type Columns = {
  readonly elapsed: Heading;
  readonly channels: readonly ChannelHeading[];
  readonly into: CsvColumns;
};

/**
 * Decodes a CSV file block by block, as it comes from a disk. Plain rows of numbers are scanned as bytes; from the first row
 * that is no such row on, what is left is kept and handed to a general parser at the end, which reads it or says what is wrong.
 */
export class CsvDecoder {
  private plain: Plain | null = null;
  /** A row, or the headings, whose end has not come yet. */
  private carried = Buffer.alloc(0);
  /** What a general parser is to read, once there is any. */
  private readonly rest: Buffer[] = [];
  private rowCount = 0;

  /**
   * @param byteLength - of the whole file, for room taken ahead [byte]
   * @param scales - ranges, barometer, zero check [-]
   */
  constructor(
    private readonly byteLength: number,
    private readonly scales: CsvScales,
  ) {}

  /** Takes the next block; it is not looked at again. @throws CsvError as {@link finish} */
  push(block: Uint8Array): void {
    if (this.isIrregular()) {
      this.keep(block);
      return;
    }
    const firstEnd = block.indexOf(LINE_END) + 1;
    if (firstEnd === 0) {
      this.carried = Buffer.concat([this.carried, block]);
      return;
    }
    let from = 0;
    if (this.plain === null || this.carried.length > 0) {
      const line = Buffer.concat([this.carried, block.subarray(0, firstEnd)]);
      this.carried = Buffer.alloc(0);
      from = firstEnd;
      if (this.plain === null) this.takeHeadings(line);
      else this.scan(this.plain, line, line.length);
    }
    const behind = block.subarray(from);
    if (this.isIrregular()) {
      this.keep(behind);
      return;
    }
    const wholeRowsEnd = behind.lastIndexOf(LINE_END) + 1;
    if (this.plain !== null) this.scan(this.plain, behind, wholeRowsEnd);
    if (this.isIrregular()) this.keep(behind.subarray(wholeRowsEnd));
    else this.carried = Buffer.from(behind.subarray(wholeRowsEnd));
  }

  /**
   * The file is at its end.
   *
   * @returns the readings, time from the first row on [s]
   * @throws CsvError naming line and column, and what was expected there
   */
  finish(): Readings {
    const left = [...this.rest, this.carried];
    const { plain } = this;
    if (plain === null) return this.general(Buffer.concat(left));
    if (left.some(({ length }) => length > 0)) {
      const rows = csvRows(Buffer.concat([plain.headingBytes, ...left]), this.rowCount);
      this.addRows(rows.slice(1), plain.columns);
    }
    return this.readings(plain.columns);
  }

  private isIrregular(): boolean {
    return this.rest.length > 0;
  }

  private keep(bytes: Uint8Array): void {
    this.rest.push(Buffer.from(bytes));
  }

  private general(bytes: Buffer): Readings {
    const [header, ...rows] = csvRows(bytes);
    if (header === undefined) throw new CsvError('line 1: expected headings such as elapsed [s],flow [l/min]');
    const columns = this.columnsOf(header.cells);
    this.addRows(rows, columns);
    return this.readings(columns);
  }

  private readings({ into }: Columns): Readings {
    if (this.rowCount === 0) throw new CsvError('line 2: expected a first row of readings below the headings');
    return into.readings();
  }

  private columnsOf(cells: readonly string[]): Columns {
    const { elapsed, channels } = csvHeadings(cells);
    return { elapsed, channels, into: new CsvColumns(elapsed, channels, cells.length, this.scales) };
  }

  /** Headings in quotes may go on in the next line: only a general parser can tell. */
  private takeHeadings(line: Buffer): void {
    const firstReturn = line.indexOf(RETURN);
    const quoteCount = line.reduce((count, byte) => (byte === QUOTE ? count + 1 : count), 0);
    if (quoteCount % 2 === 1 || (firstReturn !== -1 && firstReturn !== line.length - 2)) {
      this.keep(line);
      return;
    }
    const [header] = csvRows(line);
    if (header === undefined) throw new CsvError('line 1: expected headings such as elapsed [s],flow [l/min]');
    this.plain = {
      headingBytes: line,
      lineEnd: firstReturn === -1 ? '\n' : '\r\n',
      columns: this.columnsOf(header.cells),
      cells: new Float64Array(header.cells.length * TILE_ROWS),
    };
  }

  /** Scans whole rows; what is irregular becomes the rest. */
  private scan({ columns, cells, lineEnd }: Plain, bytes: Uint8Array, end: number): void {
    const columnCount = cells.length / TILE_ROWS;
    for (let position = 0; position < end; ) {
      const scanned = scanRows(bytes, position, end, columnCount, lineEnd, cells);
      const firstLine = this.rowCount + 2;
      columns.into.add(cells, scanned.rowCount, (row) => firstLine + row);
      if (this.rowCount === 0 && scanned.rowCount > 0) {
        const perRow = (scanned.position - position) / scanned.rowCount;
        columns.into.reserve(Math.ceil((MARGIN * this.byteLength) / perRow) + TILE_ROWS);
      }
      this.rowCount += scanned.rowCount;
      position = scanned.position;
      if (!scanned.isRegular) {
        this.keep(bytes.subarray(position, end));
        return;
      }
    }
  }

  /** Rows in strings; the first thing in them that is no number is refused. */
  private addRows(rows: readonly CsvRow[], { elapsed, channels, into }: Columns): void {
    for (const { cells, line } of rows) {
      const numbers = new Float64Array(cells.length).fill(Number.NaN);
      for (const { index, text } of [elapsed, ...channels]) {
        const cell = cells[index] ?? '';
        const value = parseDecimal(cell);
        if (value === null && (cell !== '' || index === elapsed.index)) throw notANumber(line, text, cell);
        numbers[index] = value ?? Number.NaN;
      }
      into.add(numbers, 1, () => line);
    }
    this.rowCount += rows.length;
  }
}

function notANumber(line: number, column: string, cell: string): CsvError {
  return new CsvError(`line ${line}, ${column}: expected a number with a decimal point, got ${JSON.stringify(cell)}`);
}
