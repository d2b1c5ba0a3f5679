import { readdirSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { DamagedIndexError } from './archiveErrors.ts';
import { INDEX_FILE } from './archiveIndex.ts';
import { type Archive, openArchive } from './openArchive.ts';

/** A file is written in a moment; what is older and still has its temporary name belongs to nobody any more. */
const PART_LASTS_MS = 3_600_000;

export type Rebuilt = { readonly unread: readonly string[]; readonly cleared: number };

/**
 * Makes the index of an archive anew from its files, also where it is damaged, and clears away what programs left half written
 * that were killed.
 *
 * @param directory - the archive's folder [-]
 * @returns what could not be read and is left out, and how many files were cleared away [-]
 */
export function rebuildArchive(directory: string): Rebuilt {
  const archive = openAnyhow(directory);
  try {
    return { unread: archive.rebuildIndex(), cleared: clearParts(directory) };
  } finally {
    archive.close();
  }
}

function openAnyhow(directory: string): Archive {
  try {
    return openArchive(directory);
  } catch (error) {
    if (!(error instanceof DamagedIndexError)) throw error;
    for (const end of ['', '-wal', '-shm']) rmSync(join(directory, `${INDEX_FILE}${end}`), { force: true });
    return openArchive(directory);
  }
}

function clearParts(directory: string): number {
  const parts = readdirSync(directory, { recursive: true, encoding: 'utf8' })
    .filter((path) => /(?:^|[/\\])\.[^/\\]+\.part$/.test(path))
    .map((path) => join(directory, path))
    .filter((path) => Date.now() - statSync(path).mtimeMs > PART_LASTS_MS);
  for (const path of parts) rmSync(path, { force: true });
  return parts.length;
}
