import { tieClocks } from '../../analysis/clock/tieClocks.ts';
import {
  BAD_LINE_KINDS,
  type BadLines,
  type ClockTie,
  type LineCensus,
  type Readings,
} from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { JournalError } from '../journal/journalErrors.ts';
import { parseJournalRecord } from '../journal/journalRecord.ts';
import { MISSING } from './channelReader.ts';
import { GrowingBytes, GrowingDoubles } from './growing.ts';
import { createLineDecoder, type DecodedLine, type ReadingRow } from './lineDecoder.ts';
import { ReadingColumns } from './readingColumns.ts';

/** Changes whenever the same bytes would yield another reading; what is kept of decoded readings carries it. */
export const DECODER_VERSION = '1';

export type DecodedRun = {
  readonly readings: Readings;
  readonly census: LineCensus;
  readonly badLines: BadLines;
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
 * @param zeroCheck - of the run: what it says to apply is taken off; null: nothing is [-]
 * @returns readings, timed by the bench's clock where it has one, else by their arrival [s from the first reading]
 * @throws JournalError naming the line that is no journal record
 */
export function decodeJournal(
  journal: string | Buffer,
  bench: BenchRecord,
  barometerPa: number,
  source = 'journal.log',
  zeroCheck: ZeroCheck | null = null,
): DecodedRun {
  const decoder = createLineDecoder(bench, barometerPa, zeroCheck);
  const columns = new ReadingColumns(bench.channels.map(({ channel }) => channel));
  const clocks = { deviceUs: new GrowingDoubles(), arrivalUs: new GrowingDoubles() };
  const bad = { elapsedS: new GrowingDoubles(), kinds: new GrowingBytes() };
  let speedUp: number | null = null;
  let firstRow: ReadingRow | null = null;
  let last = { elapsedS: 0, arrivalUs: Number.NaN };
  let lastBadS = 0;
  let lineNumber = 0;
  for (const record of recordsOf(journal)) {
    lineNumber += 1;
    const line = parseJournalRecord(record);
    if (line === null) {
      throw new JournalError(source, `expected '<microseconds> TAB <bytes>' in line ${lineNumber}`);
    }
    const decoded = decoder.push(line);
    if (decoded.kind === 'note' && decoded.practice !== null) speedUp = decoded.practice.speedUp;
    const badKind = badKindOf(decoded);
    if (badKind !== null) {
      const sinceUs = Number.isNaN(last.arrivalUs) ? 0 : line.monotonicUs - last.arrivalUs;
      lastBadS = Math.max(lastBadS, last.elapsedS + (sinceUs / 1e6) * (speedUp ?? 1));
      bad.elapsedS.push(lastBadS);
      bad.kinds.push(badKind);
    }
    if (decoded.kind !== 'reading') continue;
    const { row } = decoded;
    firstRow ??= row;
    if (row.deviceUs !== null) {
      clocks.deviceUs.push(row.deviceUs);
      clocks.arrivalUs.push(row.arrivalUs);
    }
    last = { elapsedS: (timeUs(row) - timeUs(firstRow)) / 1e6, arrivalUs: row.arrivalUs };
    columns.add(last.elapsedS, (channel) => row.channels[channel] ?? MISSING);
  }
  const census = decoder.census();
  const hasClock = bench.wire.deviceClockBits !== null;
  const clockTie: ClockTie | null = hasClock
    ? tieClocks(clocks.deviceUs.taken(), clocks.arrivalUs.taken(), speedUp ?? 1, census.badLineCounts.clockJump ?? 0)
    : null;
  return {
    readings: columns.readings(hasClock ? 'device' : 'arrival', clockTie),
    census,
    badLines: { elapsedS: bad.elapsedS.taken(), kinds: bad.kinds.taken() },
    isPractice: speedUp !== null,
    firstArrivalUs: firstRow?.arrivalUs ?? null,
    speedUp: speedUp ?? 1,
  };
}

/** As {@link BadLines} has it; null for a line that is none of them. */
function badKindOf(decoded: DecodedLine): number | null {
  if (decoded.kind === 'bad') return BAD_LINE_KINDS.indexOf(decoded.badKind);
  return decoded.kind === 'reconnected' ? BAD_LINE_KINDS.length : null;
}

function timeUs(row: ReadingRow): number {
  return row.deviceUs ?? row.arrivalUs;
}

/** Bytes turned into a string at a time: a journal may be longer than a string can be. */
const BLOCK_BYTES = 1 << 22;

function* recordsOf(journal: string | Buffer): Generator<string> {
  const bytes = typeof journal === 'string' ? Buffer.from(journal, 'latin1') : journal;
  let carried = '';
  for (let start = 0; start < bytes.length; start += BLOCK_BYTES) {
    const text = carried + bytes.toString('latin1', start, Math.min(bytes.length, start + BLOCK_BYTES));
    let lineStart = 0;
    for (let end = text.indexOf('\n'); end !== -1; end = text.indexOf('\n', lineStart)) {
      yield text.slice(lineStart, end);
      lineStart = end + 1;
    }
    carried = text.slice(lineStart);
  }
  if (carried !== '') yield carried;
}
