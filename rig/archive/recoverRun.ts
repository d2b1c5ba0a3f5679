import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { mark, type RunClosing, type RunRecord } from '../../analysis/records/runRecord.ts';
import { wholeRecordsLength } from '../journal/journalRecord.ts';
import { cutTail } from './cutTail.ts';
import { journalFileName, RUN_FILES } from './runFiles.ts';
import { sealRun } from './sealRun.ts';
import { writeWholeFile } from './wholeFile.ts';

/**
 * Seals a run that nobody records any more, up to its last whole line. What stood behind it is kept in `journal.tail` (and
 * `marks.tail`).
 *
 * @param folder - the run's folder, its lock held by the caller [-]
 * @param run - its record [-]
 */
export function recoverRun(folder: string, run: RunRecord): RunClosing {
  const journalPath = join(folder, journalFileName(run.source));
  const marksPath = join(folder, RUN_FILES.marks);
  // Cut off between its first file and its last: what was not written yet is empty.
  for (const path of [journalPath, marksPath]) if (!existsSync(path)) writeWholeFile(path, '');
  const tails = [cutTail(marksPath, join(folder, 'marks.tail'), wholeMarksLength(readFileSync(marksPath)))];
  if (run.source.kind === 'port') {
    tails.push(cutTail(journalPath, join(folder, 'journal.tail'), wholeRecordsLength(readFileSync(journalPath))));
  }
  const movedBytes = tails.reduce((sum, moved) => sum + moved, 0);
  const ofTail = movedBytes === 0 ? '' : `; ${movedBytes} bytes that are no whole record were moved out of it`;
  return sealRun(folder, run, 'recovered', `the recording was cut off${ofTail}`);
}

function wholeMarksLength(marks: Buffer): number {
  let start = 0;
  for (let end = marks.indexOf(0x0a); end !== -1; end = marks.indexOf(0x0a, start)) {
    if (!isMark(marks.toString('utf8', start, end))) break;
    start = end + 1;
  }
  return start;
}

function isMark(line: string): boolean {
  try {
    return mark.safeParse(JSON.parse(line)).success;
  } catch {
    return false;
  }
}
