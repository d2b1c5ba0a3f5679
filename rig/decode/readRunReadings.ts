import { join } from 'node:path';
import { NO_BAD_LINES, type Readings } from '../../analysis/readings.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import { journalFileName } from '../archive/runFiles.ts';
import { messageOf } from '../errors.ts';
import { JournalError } from '../journal/journalErrors.ts';
import { type DecodedRun, decodeJournal } from './decodeJournal.ts';
import { importCsv } from './importCsv.ts';
import { readFileBytes } from './readFileBytes.ts';

/**
 * Readings of a run, from its journal or from the file that was imported.
 *
 * @param folder - the run's folder [-]
 * @param run - its record [-]
 * @throws JournalError or CsvError if the file does not hold what it should
 */
export function readRunReadings(folder: string, run: RunRecord): DecodedRun {
  const path = join(folder, journalFileName(run.source));
  const barometerPa = run.setUp.barometerPa.value;
  const bytes = readBytes(path);
  if (run.source.kind === 'port') return decodeJournal(bytes, run.bench, barometerPa, path, run.zeroCheck);
  return importedRun(importCsv(bytes, run.bench, barometerPa, run.zeroCheck));
}

/** What there is to say of readings that came from a CSV file. */
export function importedRun(readings: Readings): DecodedRun {
  const rowCount = readings.elapsedS.length;
  return {
    readings,
    census: {
      lineCount: rowCount,
      readingCount: rowCount,
      noteCount: 0,
      badLineCounts: {},
      lostReadingCount: 0,
      reconnectCount: 0,
    },
    badLines: NO_BAD_LINES,
    isPractice: false, // a CSV file cannot tell; the certificate names it as imported
    firstArrivalUs: null,
    speedUp: 1,
  };
}

function readBytes(path: string): Buffer {
  try {
    return readFileBytes(path);
  } catch (cause) {
    throw new JournalError(path, `cannot be read (${messageOf(cause)})`, { cause });
  }
}
