import { join } from 'node:path';
import { type RunClosing, type RunRecord, runClosing } from '../../analysis/records/runRecord.ts';
import { type FileMeasure, measureFile } from './measureFile.ts';
import { parseRecord, recordText } from './recordFile.ts';
import { journalFileName, RUN_FILES } from './runFiles.ts';
import { writeWholeFile } from './wholeFile.ts';

/**
 * Seals a run whose files are complete: counts and hashes them and writes the closing. Nothing of the run is
 * rewritten afterwards.
 *
 * @param folder - the run's folder [-]
 * @param run - its record [-]
 * @param ending - how it ended [-]
 * @param reason - why, in words [-]
 * @param journal - measure of its journal, where that was taken of the very bytes that were written [-]
 * @throws ArchiveError if the run is sealed already or the closing cannot be written
 */
export function sealRun(
  folder: string,
  run: RunRecord,
  ending: RunClosing['ending'],
  reason: string,
  journal: FileMeasure = measureFile(join(folder, journalFileName(run.source))),
): RunClosing {
  const path = join(folder, RUN_FILES.closing);
  const closing = parseRecord(
    runClosing,
    {
      format: 'slipwright.closing/1',
      runId: run.id,
      ending,
      reason,
      closedAtUtc: new Date().toISOString(),
      lineCount: journal.lineCount,
      byteLength: journal.byteLength,
      sha256: {
        run: measureFile(join(folder, RUN_FILES.run)).sha256,
        journal: journal.sha256,
        marks: measureFile(join(folder, RUN_FILES.marks)).sha256,
      },
    },
    path,
  );
  writeWholeFile(path, recordText(closing));
  return closing;
}
