import { parse } from 'csv-parse/sync';
import { z } from 'zod';
import { QUALITY, type Readings } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { siFrom, type Unit, unitOf } from '../../analysis/units.ts';
import { messageOf } from '../errors.ts';
import { type ChannelValue, MISSING, parseDecimal } from './channelReader.ts';
import { CsvError } from './csvError.ts';
import { type ChannelHeading, csvHeadings } from './csvHeadings.ts';
import { ReadingColumns } from './readingColumns.ts';

const parsedRows = z.array(z.object({ record: z.array(z.string()), info: z.object({ lines: z.number() }) }));

type Span = { readonly min: number; readonly max: number };

/**
 * Reads a CSV file as the readings of a run. Headings are a channel's name and a unit of it in brackets, `elapsed [s],flow [l/min]`, in any
 * order; an empty cell is a missing value.
 *
 * @param bytes - the file, UTF-8, RFC 4180 [-]
 * @param bench - values outside its channels' ranges are marked; null: none are [-]
 * @param barometerPa - added to gauge pressures [Pa]
 * @returns the readings, time from the first row on [s]
 * @throws CsvError naming line and column, and what was expected there
 */
export function importCsv(bytes: Uint8Array, bench: BenchRecord | null, barometerPa: number): Readings {
  const [header, ...rows] = csvRows(bytes);
  if (header === undefined) throw new CsvError('line 1: expected headings such as elapsed [s],flow [l/min]');
  const { elapsed, channels } = csvHeadings(header.cells);
  if (rows.length === 0) throw new CsvError('line 2: expected a first row of readings below the headings');

  const ranges = new Map(channels.map((heading) => [heading.channel, rangeOf(heading, bench, barometerPa)]));
  const columns = new ReadingColumns(channels.map(({ channel }) => channel));
  const headingOf = new Map(channels.map((heading) => [heading.channel, heading]));
  let firstS: number | null = null;
  let lastS = Number.NEGATIVE_INFINITY;
  for (const { cells, line } of rows) {
    const time = parseDecimal(cells[elapsed.index] ?? '');
    if (time === null) throw notANumber(line, elapsed.text, cells[elapsed.index]);
    const elapsedS = siFrom(time, elapsed.unit, 0);
    if (elapsedS < lastS) throw new CsvError(`line ${line}, ${elapsed.text}: ${elapsedS} s stands behind ${lastS} s`);
    lastS = elapsedS;
    firstS ??= elapsedS;
    columns.add(elapsedS - firstS, (channel) => {
      const heading = headingOf.get(channel);
      return heading === undefined
        ? MISSING
        : cellValue(cells[heading.index], line, heading, ranges.get(channel), barometerPa);
    });
  }
  return columns.readings('device', null);
}

function csvRows(bytes: Uint8Array): readonly { readonly cells: readonly string[]; readonly line: number }[] {
  try {
    const rows = parsedRows.parse(parse(bytes, { bom: true, info: true, trim: true }));
    return rows.map(({ record, info }) => ({ cells: record, line: info.lines }));
  } catch (cause) {
    throw new CsvError(messageOf(cause), { cause }); // csv-parse names the line
  }
}

function cellValue(
  cell: string | undefined,
  line: number,
  heading: ChannelHeading,
  range: Span | null | undefined,
  barometerPa: number,
): ChannelValue {
  if (cell === undefined || cell === '') return MISSING;
  const reading = parseDecimal(cell);
  if (reading === null) throw notANumber(line, heading.text, cell);
  const value = siFrom(reading, heading.unit, barometerPa);
  const isWithin = range === null || range === undefined || (value >= range.min && value <= range.max);
  return { value, quality: isWithin ? QUALITY.good : QUALITY.outOfRange };
}

/** The bench channel's range in SI; the file may be in another unit than the bench. */
function rangeOf({ channel }: ChannelHeading, bench: BenchRecord | null, barometerPa: number): Span | null {
  const entry = bench?.channels.find((candidate) => candidate.channel === channel);
  if (entry === undefined) return null;
  const unit: Unit = unitOf(entry.unit);
  return { min: siFrom(entry.range.min, unit, barometerPa), max: siFrom(entry.range.max, unit, barometerPa) };
}

function notANumber(line: number, column: string, cell: string | undefined): CsvError {
  return new CsvError(
    `line ${line}, ${column}: expected a number with a decimal point, got ${JSON.stringify(cell ?? '')}`,
  );
}
