import { join } from 'node:path';
import { setTimeout as delay } from 'node:timers/promises';
import { certificateFolder } from '../certificate/certificateFolder.ts';
import { ArchiveError } from './archiveErrors.ts';
import { fileTogether, hasUnsettled, settleFilings } from './fileTogether.ts';
import { type FileLock, tryLock } from './lock.ts';

const FILING_PATIENCE_MS = 30_000;
const RETRY_MS = 20;

/** Where certificates are filed: one at a time, whoever files, and each as a whole. */
export class FilingDesk {
  private readonly certificates: string;
  private readonly staging: string;

  constructor(directory: string) {
    this.certificates = certificateFolder(directory);
    this.staging = join(directory, 'filing');
  }

  /**
   * Files what a certificate or a notice consists of among the certificates: all of its files or none. Under the lock alone.
   *
   * @param name - with which the name of every file begins [-]
   * @param files - contents by how the name ends: 'json', 'pdf', … [-]
   * @throws ArchiveError if one of them is there already, or the disk refuses; nothing of them is left then
   */
  file(name: string, files: Readonly<Record<string, string | Uint8Array>>): void {
    const named = Object.entries(files).map(([ending, content]) => [`${name}.${ending}`, content]);
    fileTogether(this.staging, this.certificates, name, Object.fromEntries(named));
  }

  /**
   * Runs `file` while no other program, and nothing else in this one, files a certificate here.
   *
   * @throws ArchiveError if another program does not finish its filing
   */
  async withLock<Value>(file: () => Promise<Value> | Value): Promise<Value> {
    const startedMs = performance.now();
    for (;;) {
      const lock = this.tryLock();
      if (lock !== null) {
        try {
          settleFilings(this.staging, this.certificates);
          return await file();
        } finally {
          lock.release();
        }
      }
      if (performance.now() - startedMs > FILING_PATIENCE_MS) {
        throw new ArchiveError(this.certificates, 'another program is filing here');
      }
      await delay(RETRY_MS);
    }
  }

  /** Ends a filing that was cut off, unless one is going on. */
  settleIfFree(): void {
    if (!hasUnsettled(this.staging)) return;
    const lock = this.tryLock();
    if (lock === null) return;
    try {
      settleFilings(this.staging, this.certificates);
    } finally {
      lock.release();
    }
  }

  private tryLock(): FileLock | null {
    return tryLock(join(this.certificates, 'filing.lock'));
  }
}
