import { createHash } from 'node:crypto';
import { createReadStream, createWriteStream, existsSync, renameSync, rmSync, statSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { pipeline } from 'node:stream/promises';
import { ZipFile } from 'yazl';
import { runRecord } from '../../../analysis/records/runRecord.ts';
import { readingsCsv, readingsCsvMetadata } from '../../decode/readingsCsv.ts';
import { readRunReadings } from '../../decode/readRunReadings.ts';
import { messageOf } from '../../errors.ts';
import { PROGRAM_VERSION } from '../../programVersion.ts';
import { ArchiveError } from '../archiveErrors.ts';
import { ARCHIVE_README } from '../archiveReadme.ts';
import { measureFile } from '../measureFile.ts';
import type { Archive } from '../openArchive.ts';
import { readRecordFile, recordText } from '../recordFile.ts';
import { RUN_FILES } from '../runFiles.ts';
import { syncFile, syncFolder } from '../wholeFile.ts';
import { type History, historyOf } from './historyFiles.ts';
import { HISTORY_FILES, type HistoryManifest, READINGS_FOLDER } from './historyManifest.ts';
import { historyPage } from './historyPage.ts';

/** Puts files into a zip and keeps their sums; one at a time, so that none is held in memory. */
class SummedZip {
  readonly zip = new ZipFile();
  private readonly sums: string[] = [];

  file(path: string, name: string, mtime: Date): void {
    this.sums.push(`${measureFile(path).sha256}  ${name}`);
    this.zip.addReadStreamLazy(name, { mtime }, (give) => give(null, createReadStream(path)));
  }

  text(text: string, name: string, mtime: Date): void {
    const bytes = Buffer.from(text);
    this.sums.push(`${createHash('sha256').update(bytes).digest('hex')}  ${name}`);
    this.zip.addBuffer(bytes, name, { mtime });
  }

  end(mtime: Date): void {
    this.zip.addBuffer(Buffer.from(`${this.sums.join('\n')}\n`), HISTORY_FILES.sums, { mtime });
    this.zip.end();
  }
}

/**
 * Packs the whole history of a pump into one zip: every file as the archive has it, the readings of each run as CSV, a page
 * that opens in any browser, and the SHA-256 of everything.
 *
 * @param archive - the archive [-]
 * @param pumpId - id of the pump [-]
 * @param path - of the zip; it must not be there yet [-]
 * @returns what was packed [-]
 * @throws RecordError if there is no such pump
 * @throws ArchiveError if the zip is there already or cannot be written; nothing of it is left then
 */
export async function exportHistory(archive: Archive, pumpId: string, path: string): Promise<History> {
  if (existsSync(path)) throw new ArchiveError(path, 'exists already and is never overwritten');
  const history = historyOf(archive, pumpId);
  const now = new Date();
  const summed = new SummedZip();
  for (const file of history.files) {
    const source = join(archive.directory, file);
    summed.file(source, file, statSync(source).mtime);
  }
  for (const { id } of history.runs) addReadings(summed, archive.directory, id, now);
  addGuide(summed, archive, history, now);
  const temporary = join(dirname(path), `.${basename(path)}.${process.pid}.part`);
  try {
    const written = pipeline(summed.zip.outputStream, createWriteStream(temporary, { flags: 'wx' }));
    summed.end(now);
    await written;
    syncFile(temporary);
    renameSync(temporary, path);
    syncFolder(dirname(path));
  } catch (cause) {
    throw new ArchiveError(path, `cannot be written (${messageOf(cause)})`, { cause });
  } finally {
    rmSync(temporary, { force: true });
  }
  return history;
}

/** Readings are made anew of each journal: no cache is believed. */
function addReadings(summed: SummedZip, directory: string, id: string, mtime: Date): void {
  const folder = join(directory, 'runs', id);
  const { readings } = readRunReadings(folder, readRecordFile(runRecord, join(folder, RUN_FILES.run)));
  const name = `${id}.csv`;
  summed.text([...readingsCsv(readings)].join(''), `${READINGS_FOLDER}/${name}`, mtime);
  const metadata = recordText(readingsCsvMetadata(readings, name, id));
  summed.text(metadata, `${READINGS_FOLDER}/${name}-metadata.json`, mtime);
}

/** What is made for whoever opens the zip. */
function addGuide(summed: SummedZip, archive: Archive, history: History, now: Date): void {
  const pump = archive.listPumps().find(({ id }) => id === history.pumpId) ?? null;
  const manifest: HistoryManifest = {
    format: 'slipwright.history/1',
    pumpId: history.pumpId,
    exportedAtUtc: now.toISOString(),
    programVersion: PROGRAM_VERSION,
    runs: history.runs.map(({ id }) => id),
    certificates: history.certificates.map(({ number }) => number),
  };
  summed.text(historyPage(pump, history, now.toISOString()), HISTORY_FILES.page, now);
  summed.text(ARCHIVE_README, HISTORY_FILES.readme, now);
  summed.text(recordText(manifest), HISTORY_FILES.manifest, now);
}
