import { randomUUID } from 'node:crypto';
import { closeSync, existsSync, fsyncSync, linkSync, openSync, renameSync, rmSync, writeFileSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { codeOf, messageOf } from '../errors.ts';
import { ArchiveError } from './archiveErrors.ts';

/**
 * Writes a file that is either there as a whole or not at all, whatever happens meanwhile: temporary name, sync, rename, sync of
 * the folder.
 *
 * @param path - where the file appears [-]
 * @param content - its bytes, or text as UTF-8 [-]
 * @param onExisting - 'refuse' for everything that is kept for good, 'replace' for caches [-]
 * @throws ArchiveError if the file exists and may not be replaced, or cannot be written
 */
export function writeWholeFile(
  path: string,
  content: string | Uint8Array,
  onExisting: 'refuse' | 'replace' = 'refuse',
): void {
  const temporary = join(dirname(path), `.${basename(path)}.${randomUUID()}.part`);
  try {
    writeSynced(temporary, content);
    if (onExisting === 'replace') renameSync(temporary, path);
    else putInPlace(temporary, path);
    syncFolder(dirname(path));
  } catch (cause) {
    if (codeOf(cause) === 'EEXIST') throw new ArchiveError(path, 'exists already and is never overwritten', { cause });
    throw new ArchiveError(path, `cannot be written (${messageOf(cause)})`, { cause });
  } finally {
    rmSync(temporary, { force: true });
  }
}

/** Adds a line to a file, which is made if it is not there; on the disk when it returns. @throws ArchiveError */
export function appendLine(path: string, line: string): void {
  try {
    const file = openSync(path, 'a');
    try {
      writeFileSync(file, `${line}\n`);
      fsyncSync(file);
    } finally {
      closeSync(file);
    }
    syncFolder(dirname(path));
  } catch (cause) {
    throw new ArchiveError(path, `cannot be written (${messageOf(cause)})`, { cause });
  }
}

/** A new file, on the disk when it returns; half of it is left where the disk refuses. */
export function writeSynced(path: string, content: string | Uint8Array): void {
  const file = openSync(path, 'wx');
  try {
    writeFileSync(file, content);
    fsyncSync(file);
  } finally {
    closeSync(file);
  }
}

/** A link is refused where the name is taken, a rename is not: of two writers one loses. */
function putInPlace(temporary: string, path: string): void {
  try {
    linkSync(temporary, path);
  } catch (cause) {
    // A memory stick's file system knows no links.
    if (codeOf(cause) === 'EEXIST' || existsSync(path)) throw cause;
    renameSync(temporary, path);
  }
}

/** Makes a file that was written by others last. */
export function syncFile(path: string): void {
  const handle = openSync(path, 'r+');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}

/** Makes the names in a folder last; Windows keeps them without and refuses to open a folder. */
export function syncFolder(folder: string): void {
  if (process.platform === 'win32') return;
  const handle = openSync(folder, 'r');
  try {
    fsyncSync(handle);
  } finally {
    closeSync(handle);
  }
}
