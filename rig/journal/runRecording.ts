import { closeSync, existsSync, fdatasyncSync, openSync, rmSync, statSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { type Mark, mark, type RunClosing, type RunRecord, runRecord } from '../../analysis/records/runRecord.ts';
import { RunError } from '../archive/archiveErrors.ts';
import { cutTail } from '../archive/cutTail.ts';
import { type FileLock, tryLock } from '../archive/lock.ts';
import { parseRecord, readRecordFile } from '../archive/recordFile.ts';
import { journalFileName, RUN_FILES } from '../archive/runFiles.ts';
import { sealRun } from '../archive/sealRun.ts';
import { syncFolder } from '../archive/wholeFile.ts';
import { monotonicNowUs, type ReceivedLine } from '../serial/receivedLine.ts';
import type { JournalError } from './journalErrors.ts';
import { JournalFile, type JournalState } from './journalFile.ts';

/**
 * A run while it is recorded: the lock, the journal and the marks. Whoever holds this holds the run's lock, so nobody
 * else takes the run for one that was cut off.
 */
export class RunRecording {
  readonly run: RunRecord;
  private readonly lock: FileLock;
  private readonly journal: JournalFile;

  /**
   * @param folder - of a run that was created and never recorded [-]
   * @param onFailure - a sync beside the recording failed [-]
   * @throws RunError if the run is sealed or recorded by another
   */
  constructor(
    readonly folder: string,
    onFailure: (error: JournalError) => void,
  ) {
    this.run = readRecordFile(runRecord, join(folder, RUN_FILES.run));
    const lock = tryLock(join(folder, RUN_FILES.lock));
    if (lock === null) throw new RunError(this.run.id, 'is being recorded by another program');
    this.lock = lock;
    try {
      if (existsSync(join(folder, RUN_FILES.closing))) throw new RunError(this.run.id, 'is sealed: start a new one');
      this.journal = new JournalFile(join(folder, journalFileName(this.run.source)), onFailure);
      syncFolder(folder); // the name of the journal lasts too
    } catch (error) {
      this.lock.release();
      throw error;
    }
  }

  /** @throws JournalError if the line could not be written; the run is to be closed as failed then */
  append(line: ReceivedLine): void {
    this.journal.append(line);
  }

  state(): JournalState {
    return this.journal.state();
  }

  /** Notes what the operator did; on the disk when this returns. */
  mark(text: string): Mark {
    const path = join(this.folder, RUN_FILES.marks);
    const made = parseRecord(
      mark,
      { monotonicUs: monotonicNowUs(), atUtc: new Date().toISOString(), text },
      `mark ${JSON.stringify(text)}`,
    );
    const file = openSync(path, 'a');
    try {
      writeSync(file, `${JSON.stringify(made)}\n`);
      fdatasyncSync(file);
    } finally {
      closeSync(file);
    }
    return made;
  }

  /**
   * Ends and seals the run.
   *
   * @throws ArchiveError or JournalError if the disk refuses; the run is then left as one that was cut off, for the next start
   */
  close(ending: RunClosing['ending'], reason: string): RunClosing {
    const closing = this.sealLocked(ending, reason);
    rmSync(join(this.folder, RUN_FILES.lock), { force: true }); // only of a sealed run: nobody takes its lock again
    return closing;
  }

  private sealLocked(ending: RunClosing['ending'], reason: string): RunClosing {
    try {
      this.closeJournal(ending);
      return sealRun(this.folder, this.run, ending, reason);
    } finally {
      this.lock.release();
    }
  }

  private closeJournal(ending: RunClosing['ending']): void {
    const { byteLength } = this.journal.state();
    try {
      this.journal.close();
    } catch (error) {
      if (ending !== 'failed') throw error; // a disk that could not be written cannot be synced either
    }
    if (statSync(this.journal.path).size > byteLength) {
      cutTail(this.journal.path, join(this.folder, 'journal.tail'), byteLength);
    }
  }
}
