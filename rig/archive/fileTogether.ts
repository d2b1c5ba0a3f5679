import { existsSync, mkdirSync, readdirSync, renameSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { messageOf } from '../errors.ts';
import { ArchiveError } from './archiveErrors.ts';
import { syncFolder, writeSynced } from './wholeFile.ts';

/** A folder in the making, and one that is whole: the rename between the two is the moment in which its files are filed. */
const WRITING = '.writing';
const WHOLE = '.whole';

/**
 * Files several files of one folder together: all of them or none, whatever happens meanwhile. Called by one at a time, under
 * a lock.
 *
 * @param staging - where they are made ready; on the same file system [-]
 * @param folder - where they belong [-]
 * @param name - what they are together, unique in `staging` [-]
 * @param files - contents by name [-]
 * @throws ArchiveError if one of them is there already, or cannot be written; nothing of them is left then
 */
export function fileTogether(
  staging: string,
  folder: string,
  name: string,
  files: Readonly<Record<string, string | Uint8Array>>,
): void {
  const names = Object.keys(files);
  const taken = names.find((file) => existsSync(join(folder, file)));
  if (taken !== undefined) throw new ArchiveError(join(folder, taken), 'exists already and is never overwritten');
  const writing = join(staging, `${name}${WRITING}`);
  const whole = join(staging, `${name}${WHOLE}`);
  try {
    mkdirSync(writing, { recursive: true });
    for (const [file, content] of Object.entries(files)) writeSynced(join(writing, file), content);
    syncFolder(writing);
    renameSync(writing, whole);
    syncFolder(staging);
    moveInto(folder, whole);
  } catch (cause) {
    // Nobody was told that they are filed.
    for (const file of names) rmSync(join(folder, file), { force: true });
    for (const made of [writing, whole]) rmSync(made, { recursive: true, force: true });
    throw new ArchiveError(join(folder, name), `cannot be written (${messageOf(cause)})`, { cause });
  }
}

/**
 * Files what lies ready in a folder of its own, as {@link fileTogether} does; what is there already by the same name must be
 * the same.
 *
 * @param staging - on the same file system [-]
 * @param folder - where the files belong [-]
 * @param name - what they are together, unique in `staging` [-]
 * @param ready - the folder in which they lie; it is gone afterwards [-]
 */
export function fileReady(staging: string, folder: string, name: string, ready: string): void {
  const whole = join(staging, `${name}${WHOLE}`);
  syncFolder(ready);
  renameSync(ready, whole);
  syncFolder(staging);
  moveInto(folder, whole);
}

/** Ends what a program that was killed left in the middle: what was whole is filed, the rest (an import, too) is removed. */
export function settleFilings(staging: string, folder: string): void {
  for (const entry of readdirSync(staging)) {
    if (entry.endsWith(WHOLE)) moveInto(folder, join(staging, entry));
    else rmSync(join(staging, entry), { recursive: true, force: true });
  }
}

/** Whether {@link settleFilings} has something to do. */
export function hasUnsettled(staging: string): boolean {
  return readdirSync(staging).length > 0;
}

function moveInto(folder: string, whole: string): void {
  for (const file of readdirSync(whole)) renameSync(join(whole, file), join(folder, file));
  syncFolder(folder);
  rmSync(whole, { recursive: true });
}
