import type { LineCensus, Readings } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { JournalError } from '../journal/journalErrors.ts';
import { parseJournalRecord } from '../journal/journalRecord.ts';
import { MISSING } from './channelReader.ts';
import { createLineDecoder, type ReadingRow } from './lineDecoder.ts';
import { ReadingColumns } from './readingColumns.ts';

export type DecodedRun = {
  readonly readings: Readings;
  readonly census: LineCensus;
  /** A valid greeting of a practice bench stands in the journal. */
  readonly isPractice: boolean;
  /** Host's clock at the first reading, to place marks beside readings; null without readings or for an imported file. */
  readonly firstArrivalUs: number | null;
  /** Bench seconds in a second of the host: the practice bench's last word, 1 for every other [1]. */
  readonly speedUp: number;
};

/**
 * Decodes the journal of a run.
 *
 * @param journal - content of journal.log, which ends with its last whole record [-]
 * @param bench - the bench record in force when it was recorded [-]
 * @param barometerPa - added to gauge pressures [Pa]
 * @param source - name of the file, for messages [-]
 * @returns readings, timed by the bench's clock where it has one, else by their arrival [s from the first reading]
 * @throws JournalError naming the line that is no journal record
 */
export function decodeJournal(
  journal: string | Buffer,
  bench: BenchRecord,
  barometerPa: number,
  source = 'journal.log',
): DecodedRun {
  const decoder = createLineDecoder(bench, barometerPa);
  const columns = new ReadingColumns(bench.channels.map(({ channel }) => channel));
  let speedUp: number | null = null;
  let firstRow: ReadingRow | null = null;
  let lineNumber = 0;
  for (const record of recordsOf(journal)) {
    lineNumber += 1;
    const line = parseJournalRecord(record);
    if (line === null) {
      throw new JournalError(source, `expected '<microseconds> TAB <bytes>' in line ${lineNumber}`);
    }
    const decoded = decoder.push(line);
    if (decoded.kind === 'note' && decoded.practice !== null) speedUp = decoded.practice.speedUp;
    if (decoded.kind !== 'reading') continue;
    const { row } = decoded;
    firstRow ??= row;
    columns.add((timeUs(row) - timeUs(firstRow)) / 1e6, (channel) => row.channels[channel] ?? MISSING);
  }
  return {
    readings: columns.readings(bench.wire.deviceClockBits === null ? 'arrival' : 'device', null),
    census: decoder.census(),
    isPractice: speedUp !== null,
    firstArrivalUs: firstRow?.arrivalUs ?? null,
    speedUp: speedUp ?? 1,
  };
}

function timeUs(row: ReadingRow): number {
  return row.deviceUs ?? row.arrivalUs;
}

function* recordsOf(journal: string | Buffer): Generator<string> {
  const text = typeof journal === 'string' ? journal : journal.toString('latin1');
  let start = 0;
  for (let end = text.indexOf('\n'); end !== -1; end = text.indexOf('\n', start)) {
    yield text.slice(start, end);
    start = end + 1;
  }
  if (start < text.length) yield text.slice(start);
}
