import { existsSync } from 'node:fs';
import { exportHistory } from '../archive/history/exportHistory.ts';
import { importHistory } from '../archive/history/importHistory.ts';
import { openArchive } from '../archive/openArchive.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

/** `slipwright archive export`: packs a pump's whole history into one zip. */
export async function archiveExport(
  pumpId: string,
  path: string,
  directory: string,
  speaker: Speaker,
): Promise<ExitCode> {
  const archive = openArchive(directory);
  try {
    archive.refreshIndex();
    const { runs, certificates, openRuns, files } = await exportHistory(archive, pumpId, path);
    for (const id of openRuns) speaker.say(`run ${id} is not sealed yet and was left out`);
    speaker.result(
      { path, runs: runs.map(({ id }) => id), certificates: certificates.map(({ number }) => number), files },
      `${path}: ${runs.length} runs and ${certificates.length} certificates of ${pumpId}; index.html in it opens in any browser`,
    );
    return EXIT.done;
  } finally {
    archive.close();
  }
}

/** `slipwright archive import`: takes such a zip into an archive. */
export async function archiveImport(path: string, directory: string, speaker: Speaker): Promise<ExitCode> {
  if (!existsSync(path)) throw new WrongUse(`${path} is not there`);
  const archive = openArchive(directory);
  try {
    const { record, taken, notes } = await importHistory(archive, path);
    for (const { file, text } of notes) speaker.say(`${file}: ${text}`);
    const { pumpId, runs, certificates } = record.history;
    const of = `${runs.length} runs and ${certificates.length} certificates of ${pumpId}`;
    speaker.result(
      { ...record, taken },
      taken === 0 ? `${of} are here already` : `${of} verify, and ${taken} files were taken in`,
    );
    return EXIT.done;
  } finally {
    archive.close();
  }
}
