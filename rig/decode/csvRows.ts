import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { messageOf } from '../errors.ts';
import { CsvError } from './csvError.ts';

export type CsvRow = { readonly cells: readonly string[]; readonly line: number };

const parsedRows = z.array(z.object({ record: z.array(z.string()), info: z.object({ lines: z.number() }) }));

/**
 * Rows of any CSV file, quoted or not, in strings: slower than scanning, for headings, for files with quotes, and to say what is
 * wrong with a row.
 *
 * @param bytes - a whole file, or its headings and rows from further down [-]
 * @param linesLeftOut - how many lines of the file are missing between the two [-]
 * @throws CsvError naming the line, for a row that is torn or of another length than the headings
 *
 * Source: RFC 4180.
 */
export function csvRows(bytes: Uint8Array, linesLeftOut = 0): readonly CsvRow[] {
  const lineOf = (line: number): number => (line > 1 ? line + linesLeftOut : line);
  try {
    const rows = parsedRows.parse(parse(bytes, { bom: true, info: true, trim: true }));
    return rows.map(({ record, info }) => ({ cells: record, line: lineOf(info.lines) }));
  } catch (cause) {
    // csv-parse names the line
    const message = messageOf(cause).replace(/\bline (\d+)/g, (_, line: string) => `line ${lineOf(Number(line))}`);
    throw new CsvError(message, { cause });
  }
}
