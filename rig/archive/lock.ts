import Database from 'better-sqlite3';
import { codeOf } from '../errors.ts';

export type FileLock = { release(): void };

/**
 * Takes a lock that the operating system holds for this process: an open exclusive SQLite transaction on `path`. It is
 * free again when released, and also when the process is killed.
 *
 * @param path - lock file; created if absent, and left where it is [-]
 * @returns the lock, or null if another holds it [-]
 */
export function tryLock(path: string): FileLock | null {
  const database = new Database(path, { timeout: 0 });
  try {
    database.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    database.close();
    if (codeOf(error)?.startsWith('SQLITE_BUSY')) return null;
    throw error;
  }
  return { release: () => database.close() };
}
