import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, renameSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import type { Readings } from '../../analysis/readings.ts';
import {
  type HoldExclusion,
  holdExclusion,
  type Mark,
  mark,
  type RunClosing,
  type RunRecord,
  runClosing,
  runRecord,
} from '../../analysis/records/runRecord.ts';
import { CsvDecoder } from '../decode/csvDecoder.ts';
import type { DecodedRun } from '../decode/decodeJournal.ts';
import { importedRun } from '../decode/readRunReadings.ts';
import { codeOf, messageOf } from '../errors.ts';
import { ArchiveError, ChangedError, RunError } from './archiveErrors.ts';
import { EvidenceFiling } from './evidenceFiling.ts';
import { readJsonLines } from './jsonLines.ts';
import { type FileLock, tryLock } from './lock.ts';
import { measureFile } from './measureFile.ts';
import { parseRecord, readRecordFile, recordText } from './recordFile.ts';
import { recoverRun } from './recoverRun.ts';
import { journalFileName, RUN_FILES } from './runFiles.ts';
import { sealRun } from './sealRun.ts';
import type { SourceFile } from './sourceFile.ts';
import { appendLine, syncFolder, writeWholeFile } from './wholeFile.ts';

/** What a run may leave unsaid: no zero check, no strip sheet, first mounting. */
type Unsaid = 'zeroCheck' | 'stripSheet' | 'mounting';
export type NewRun = Omit<RunRecord, 'format' | 'id' | Unsaid> & Partial<Pick<RunRecord, Unsaid>>;
export type SealedRun = {
  readonly folder: string;
  readonly run: RunRecord;
  readonly closing: RunClosing;
  readonly marks: readonly Mark[];
};
export type ImportedRun = { readonly sealed: SealedRun; readonly decoded: DecodedRun };
/** What became of a run that was found cut off. */
export type Recovery =
  | { readonly runId: string; readonly sealed: true; readonly closing: RunClosing }
  | { readonly runId: string; readonly sealed: false; readonly why: string };

/** The day a run began and a counter. */
export const RUN_ID = /^(\d{4}-\d{2}-\d{2})-(\d{4,})$/;

/** Folders of runs: `<folder>/<id>`, where an id is the day the run began and a counter, 2026-11-25-0001. */
export class RunStore {
  constructor(private readonly folder: string) {}

  /** Ids of all runs, oldest first. */
  ids(): readonly string[] {
    return readdirSync(this.folder)
      .filter((name) => RUN_ID.test(name))
      .sort((a, b) => a.localeCompare(b, 'en', { numeric: true }));
  }

  folderOf(id: string): string {
    const folder = join(this.folder, id);
    if (!RUN_ID.test(id) || !existsSync(folder)) throw new RunError(id, `there is no such run in ${this.folder}`);
    return folder;
  }

  /** Makes the folder of a new run, with run.json whole and no marks, before the first byte. */
  create(newRun: NewRun): { readonly run: RunRecord; readonly folder: string } {
    const runAs = (id: string): RunRecord =>
      parseRecord(runRecord, { format: 'slipwright.run/1', id, ...newRun }, 'run record');
    const day = runAs('0').startedAtUtc.slice(0, 10); // wrong fields are refused before there is a folder
    const id = this.takeId(day);
    const folder = join(this.folder, id);
    const run = runAs(id);
    writeWholeFile(join(folder, RUN_FILES.marks), '');
    writeWholeFile(join(folder, RUN_FILES.run), recordText(run));
    return { run, folder };
  }

  /**
   * Files a CSV as a run of its own, its bytes as they are. The readings are decoded from the very bytes that are filed, block by
   * block, while these are written and hashed.
   *
   * @param describe - what the run's record says; asked once the file is being read [-]
   * @throws CsvError if it cannot be taken as evidence; nothing of it is left then
   */
  async import(fileName: string, source: SourceFile, describe: () => Omit<NewRun, 'source'>): Promise<ImportedRun> {
    const growing = join(this.folder, `.${randomUUID()}.part`);
    const filing = new EvidenceFiling(source, growing);
    try {
      const newRun = describe();
      const readings = decodedWhileFiled(newRun, source, filing);
      const measure = await filing.finish();
      const { sha256 } = measure;
      const { run, folder } = this.create({ ...newRun, source: { kind: 'import', fileName, sha256 } });
      renameSync(growing, join(folder, journalFileName(run.source)));
      syncFolder(folder);
      const closing = sealRun(folder, run, 'completed', `imported from ${fileName}`, measure);
      return { sealed: { folder, run, closing, marks: [] }, decoded: importedRun(readings) };
    } finally {
      await filing.abandon();
      source.close();
      rmSync(growing, { force: true });
    }
  }

  /** A run's record and, once it is sealed, its closing; nothing is checked against the hashes. */
  glance(id: string): { readonly run: RunRecord; readonly closing: RunClosing | null } {
    const folder = this.folderOf(id);
    const path = join(folder, RUN_FILES.run);
    if (!existsSync(path)) throw new RunError(id, `expected the file ${path}`);
    const closingPath = join(folder, RUN_FILES.closing);
    return {
      run: readRecordFile(runRecord, path),
      closing: existsSync(closingPath) ? readRecordFile(runClosing, closingPath) : null,
    };
  }

  /**
   * Reads a sealed run and checks every file against its closing.
   *
   * @throws RunError if it is missing or not sealed, ChangedError (code 'CHANGED') naming the file that is not as it was sealed
   */
  read(id: string): SealedRun {
    const sealed = this.glanceSealed(id);
    const { folder, run, closing } = sealed;
    const { lineCount, byteLength } = checkHash(join(folder, journalFileName(run.source)), closing.sha256.journal);
    if (lineCount !== closing.lineCount || byteLength !== closing.byteLength) {
      const closingPath = join(folder, RUN_FILES.closing);
      throw new ChangedError(closingPath, `it counts ${closing.lineCount} lines, the journal holds ${lineCount}`);
    }
    return sealed;
  }

  /**
   * As {@link read}, but the journal's bytes are not hashed, only its length is compared: enough to show what was analysed before, never
   * to analyse or certify.
   */
  glanceSealed(id: string): SealedRun {
    const folder = this.folderOf(id);
    const closingPath = join(folder, RUN_FILES.closing);
    const runPath = join(folder, RUN_FILES.run);
    if (!existsSync(closingPath)) throw new RunError(id, 'is not sealed: it is being recorded, or was cut off');
    const closing = readRecordFile(runClosing, closingPath);
    checkHash(runPath, closing.sha256.run);
    const run = readRecordFile(runRecord, runPath);
    if (run.id !== id || closing.runId !== id) throw new ChangedError(closingPath, `expected the files of run ${id}`);
    const marksPath = join(folder, RUN_FILES.marks);
    checkHash(marksPath, closing.sha256.marks);
    const journalPath = join(folder, journalFileName(run.source));
    const byteLength = statSync(journalPath, { throwIfNoEntry: false })?.size ?? null;
    if (byteLength === null) throw new ChangedError(journalPath, 'it is missing');
    if (byteLength !== closing.byteLength) {
      throw new ChangedError(journalPath, `expected ${closing.byteLength} bytes, it has ${byteLength}`);
    }
    return { folder, run, closing, marks: readJsonLines(mark, marksPath) };
  }

  /** What a person took out of the fit of a run, or back in, oldest first. @throws RecordError naming the line that is none */
  readExclusions(id: string): readonly HoldExclusion[] {
    const path = join(this.folderOf(id), RUN_FILES.exclusions);
    return existsSync(path) ? readJsonLines(holdExclusion, path) : [];
  }

  /**
   * Adds to what a person took out; nothing that was said is changed.
   *
   * @throws RecordError if it is no such line, or one before it is none; ArchiveError if it cannot be written
   */
  addExclusion(id: string, exclusion: HoldExclusion): void {
    const path = join(this.folderOf(id), RUN_FILES.exclusions);
    this.readExclusions(id);
    appendLine(path, JSON.stringify(parseRecord(holdExclusion, exclusion, path)));
  }

  /** Seals each run that is unsealed and that nobody records any more. */
  sealInterrupted(): readonly Recovery[] {
    return this.ids().flatMap((id) => {
      if (existsSync(join(this.folder, id, RUN_FILES.closing))) return [];
      const recovery = this.sealIfInterrupted(id);
      return recovery === null ? [] : [recovery];
    });
  }

  private sealIfInterrupted(runId: string): Recovery | null {
    const folder = join(this.folder, runId);
    const lockPath = join(folder, RUN_FILES.lock);
    try {
      const lock = tryLock(lockPath);
      if (lock === null) return null; // it is being recorded
      const recovery = this.sealLocked(runId, folder, lock);
      rmSync(lockPath, { force: true }); // only of a sealed run: nobody takes its lock again
      return recovery;
    } catch (error) {
      return { runId, sealed: false, why: messageOf(error) };
    }
  }

  private sealLocked(runId: string, folder: string, lock: FileLock): Recovery | null {
    try {
      const { run, closing } = this.glance(runId);
      if (closing !== null) return null; // sealed by whoever held the lock a moment ago
      return { runId, sealed: true, closing: recoverRun(folder, run) };
    } finally {
      lock.release();
    }
  }

  private takeId(day: string): string {
    const taken = this.ids()
      .map((id) => RUN_ID.exec(id))
      .filter((match) => match?.[1] === day);
    let number = Math.max(0, ...taken.map((match) => Number(match?.[2])));
    for (;;) {
      number += 1;
      const id = `${day}-${String(number).padStart(4, '0')}`;
      try {
        mkdirSync(join(this.folder, id)); // refused if another program took it
        return id;
      } catch (cause) {
        if (codeOf(cause) === 'EEXIST') continue;
        throw new ArchiveError(join(this.folder, id), `cannot be made (${messageOf(cause)})`, { cause });
      }
    }
  }
}

function decodedWhileFiled(
  newRun: Omit<NewRun, 'source'>,
  { byteLength }: SourceFile,
  filing: EvidenceFiling,
): Readings {
  const { bench, setUp, zeroCheck = null } = newRun;
  const decoder = new CsvDecoder(byteLength, { bench, barometerPa: setUp.barometerPa.value, zeroCheck });
  for (let block = filing.next(); block !== null; block = filing.next()) decoder.push(block);
  return decoder.finish();
}

function checkHash(path: string, expected: string): { readonly lineCount: number; readonly byteLength: number } {
  if (!existsSync(path)) throw new ChangedError(path, 'it is missing');
  const measure = measureFile(path);
  if (measure.sha256 !== expected) throw new ChangedError(path, `expected SHA-256 ${expected}, got ${measure.sha256}`);
  return measure;
}
