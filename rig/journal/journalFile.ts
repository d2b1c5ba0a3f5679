import { closeSync, fdatasync, fdatasyncSync, fstatSync, openSync, writeSync } from 'node:fs';
import { messageOf } from '../errors.ts';
import { monotonicNowUs, type ReceivedLine } from '../serial/receivedLine.ts';
import { JournalError } from './journalErrors.ts';
import { formatJournalRecord } from './journalRecord.ts';

export type JournalState = {
  readonly lineCount: number;
  readonly byteLength: number;
  /** Age of the oldest line that is not yet known to be on the disk; 0 when all are [ms]. */
  readonly oldestUnsyncedMs: number;
};

/** A sync begins this long after the one before, or when that one ends. */
const SYNC_INTERVAL_MS = 200;

/**
 * An open journal: each line is with the operating system (write(2)) when `append` returns, and so outlives this
 * process; syncs to the disk run beside.
 */
export class JournalFile {
  private readonly file: number;
  private lineCount = 0;
  /** Whole records only: after a failed write more bytes may stand in the file. */
  private byteLength = 0;
  /** First line that no sync has begun for, and first line of the sync that runs. */
  private unsyncedSinceUs: number | null = null;
  private syncingSinceUs: number | null = null;
  private timer: NodeJS.Timeout | null = null;
  private isClosed = false;

  constructor(
    readonly path: string,
    private readonly onFailure: (error: JournalError) => void,
  ) {
    try {
      this.file = openSync(path, 'a');
    } catch (cause) {
      throw new JournalError(path, `cannot be opened (${messageOf(cause)})`, { cause });
    }
    if (fstatSync(this.file).size !== 0) {
      closeSync(this.file);
      throw new JournalError(path, 'expected an empty file: something was recorded here already');
    }
  }

  /** @throws JournalError if the line could not be written as a whole */
  append(line: ReceivedLine): void {
    const bytes = Buffer.from(formatJournalRecord(line), 'latin1');
    try {
      for (let written = 0; written < bytes.length; ) written += writeSync(this.file, bytes, written);
    } catch (cause) {
      throw new JournalError(this.path, `cannot be written (${messageOf(cause)})`, { cause });
    }
    this.lineCount += 1;
    this.byteLength += bytes.length;
    this.unsyncedSinceUs ??= monotonicNowUs();
    if (this.syncingSinceUs === null) this.timer ??= setTimeout(() => this.sync(), SYNC_INTERVAL_MS);
  }

  state(): JournalState {
    const sinceUs = this.syncingSinceUs ?? this.unsyncedSinceUs;
    return {
      lineCount: this.lineCount,
      byteLength: this.byteLength,
      oldestUnsyncedMs: sinceUs === null ? 0 : (monotonicNowUs() - sinceUs) / 1000,
    };
  }

  /** Syncs what is left and closes. @throws JournalError if the disk refuses */
  close(): void {
    this.isClosed = true;
    if (this.timer !== null) clearTimeout(this.timer);
    this.timer = null;
    try {
      fdatasyncSync(this.file);
    } catch (cause) {
      throw new JournalError(this.path, `cannot be synced (${messageOf(cause)})`, { cause });
    } finally {
      // A sync that runs beside still uses the number of the file: it closes it then.
      if (this.syncingSinceUs === null) closeSync(this.file);
    }
  }

  private sync(): void {
    this.timer = null;
    const startedUs = monotonicNowUs();
    this.syncingSinceUs = this.unsyncedSinceUs;
    this.unsyncedSinceUs = null;
    fdatasync(this.file, (cause) => {
      this.syncingSinceUs = null;
      if (this.isClosed) {
        closeSync(this.file);
        return;
      }
      if (cause !== null) {
        this.onFailure(new JournalError(this.path, `cannot be synced (${cause.message})`, { cause }));
        return;
      }
      if (this.unsyncedSinceUs === null) return;
      const passedMs = (monotonicNowUs() - startedUs) / 1000;
      this.timer = setTimeout(() => this.sync(), Math.max(0, SYNC_INTERVAL_MS - passedMs));
    });
  }
}
