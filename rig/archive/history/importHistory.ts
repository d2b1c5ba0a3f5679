import { randomUUID } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { messageOf } from '../../errors.ts';
import { checkArchive } from '../check/checkArchive.ts';
import type { Flaw } from '../check/flaw.ts';
import { fileReady } from '../fileTogether.ts';
import { measureFile } from '../measureFile.ts';
import type { Archive } from '../openArchive.ts';
import { readRecordFile, recordText } from '../recordFile.ts';
import { RECORD_SUMS } from '../recordStore.ts';
import { appendLine, syncFolder, writeWholeFile } from '../wholeFile.ts';
import { HISTORY_FILES, HISTORY_NAME, historyManifest, type ImportRecord, READINGS_FOLDER } from './historyManifest.ts';
import { TransferError } from './transferError.ts';
import { UNPACK_LIMITS, type UnpackLimits, unpackZip } from './unpackZip.ts';

export type ImportedHistory = {
  readonly record: ImportRecord;
  /** Files that were taken over; those that were here already, byte for byte, are not counted. */
  readonly taken: number;
  readonly notes: readonly Flaw[];
};

/** Files that only grow: of two, the one that goes on from the other is taken. */
const GROWING = /^(?:days\/[^/]+\.jsonl|runs\/[^/]+\/exclusions\.jsonl)$/;

/**
 * Takes the history of a pump into an archive: unpacked beside it, checked as an archive is, held against what is here, and
 * only then moved in. Nothing that is here is changed.
 *
 * @param archive - where it goes [-]
 * @param path - the zip [-]
 * @param limits - how much it may hold [-]
 * @throws TransferError naming the file that does not verify, or that is here with other content; nothing was taken then
 * @throws ArchiveError if the disk refuses
 */
export async function importHistory(
  archive: Archive,
  path: string,
  limits: UnpackLimits = UNPACK_LIMITS,
): Promise<ImportedHistory> {
  const { directory } = archive;
  return archive.withFilingLock(async () => {
    const staging = join(directory, 'filing', `import-${randomUUID()}`);
    try {
      mkdirSync(staging);
      await unpackZip(path, staging, (name) => HISTORY_NAME.test(name), limits);
      const { record, notes } = await verified(staging, path);
      const files = filesOf(staging);
      refuseConflicts(directory, staging, files, path);
      const place = join(directory, 'imports', `${record.sha256}.json`);
      // First: whatever is cut off behind it can be told from what was filed here, and taken in again.
      if (!existsSync(place)) writeWholeFile(place, recordText(record));
      const taken = takeAll(directory, staging, files, record.sha256);
      archive.refreshIndex();
      return { record, taken, notes };
    } finally {
      rmSync(staging, { recursive: true, force: true });
    }
  });
}

/** Checks what was unpacked, and clears away what was made for readers alone. */
async function verified(staging: string, path: string): Promise<Pick<ImportedHistory, 'record' | 'notes'>> {
  const manifestPath = join(staging, HISTORY_FILES.manifest);
  if (!existsSync(manifestPath))
    throw new TransferError(path, `holds no ${HISTORY_FILES.manifest}: it is no pump history`);
  checkSums(staging, path);
  let record: ImportRecord;
  try {
    record = {
      format: 'slipwright.import/1',
      importedAtUtc: new Date().toISOString(),
      fileName: basename(path),
      sha256: measureFile(path).sha256,
      history: readRecordFile(historyManifest, manifestPath),
    };
  } catch (cause) {
    throw new TransferError(path, messageOf(cause), { cause });
  }
  for (const name of Object.values(HISTORY_FILES)) rmSync(join(staging, name), { force: true });
  rmSync(join(staging, READINGS_FOLDER), { recursive: true, force: true });
  for (const folder of ['runs', 'certificates', 'imports']) mkdirSync(join(staging, folder), { recursive: true });
  // As an archive that holds this one import: certificates of other pumps, between those of this one, are not missed.
  const ownRecord = join(staging, 'imports', `${record.sha256}.json`);
  writeWholeFile(ownRecord, recordText(record));
  const { flaws } = await checkArchive(staging);
  rmSync(ownRecord);
  const wrong = flaws.filter(({ severity }) => severity === 'wrong').map(({ file, text }) => `${file}: ${text}`);
  const gone = missingFrom(staging, record);
  if (wrong.length + gone.length > 0) {
    throw new TransferError(path, `does not verify, and nothing of it is taken: ${[...gone, ...wrong].join('; ')}`);
  }
  return { record, notes: flaws.filter(({ file }) => file !== 'index.sqlite') };
}

function missingFrom(staging: string, { history }: ImportRecord): readonly string[] {
  return [
    ...history.runs.filter((id) => !existsSync(join(staging, 'runs', id))).map((id) => `run ${id} is missing`),
    ...history.certificates
      .filter((number) => !existsSync(join(staging, 'certificates', `${number}.json`)))
      .map((number) => `certificate ${number} is missing`),
  ];
}

function checkSums(staging: string, path: string): void {
  const sumsPath = join(staging, HISTORY_FILES.sums);
  const lines = existsSync(sumsPath) ? readFileSync(sumsPath, 'utf8').split('\n') : [];
  const sums = new Map(lines.map((line) => [line.slice(66), line.slice(0, 64)]));
  for (const file of filesOf(staging)) {
    if (file === HISTORY_FILES.sums) continue;
    const expected = sums.get(file);
    if (expected !== measureFile(join(staging, file)).sha256) {
      throw new TransferError(path, `${file} is not what was exported: expected SHA-256 ${expected ?? 'in its sums'}`);
    }
    sums.delete(file);
  }
  const missing = [...sums.keys()].find((file) => file !== '');
  if (missing !== undefined) throw new TransferError(path, `${missing} was exported and is missing`);
}

/** With '/' between folders. */
function filesOf(folder: string): readonly string[] {
  return readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) =>
      join(entry.parentPath, entry.name)
        .slice(folder.length + 1)
        .replaceAll('\\', '/'),
    )
    .sort();
}

function isSame(one: string, other: string): boolean {
  return measureFile(one).sha256 === measureFile(other).sha256;
}

/** Whether a file goes on from another, which it holds from the beginning. */
function goesOnFrom(longer: string, shorter: string): boolean {
  const head = readFileSync(shorter);
  return readFileSync(longer).subarray(0, head.length).equals(head);
}

function refuseConflicts(directory: string, staging: string, files: readonly string[], path: string): void {
  const conflicts = files.filter((file) => {
    const here = join(directory, file);
    const brought = join(staging, file);
    if (!existsSync(here) || basename(file) === RECORD_SUMS || isSame(here, brought)) return false;
    return !(GROWING.test(file) && (goesOnFrom(here, brought) || goesOnFrom(brought, here)));
  });
  if (conflicts.length === 0) return;
  const numbers = [...new Set(conflicts.flatMap((file) => /^certificates\/(\d{4}-\d{4,6})\./.exec(file)?.[1] ?? []))];
  const twice = numbers.length === 0 ? '' : ` Two certificates bear one number: ${numbers.join(', ')}.`;
  throw new TransferError(path, `nothing of it is taken: here with other content are ${conflicts.join(', ')}.${twice}`);
}

/**
 * Moves in what is not here yet: runs each as a whole, since a run without its closing would be taken for one that was cut
 * off; certificates all together and last, since they rest on the rest.
 *
 * @returns how many files were taken [-]
 */
function takeAll(directory: string, staging: string, files: readonly string[], name: string): number {
  const isNew = (file: string): boolean => !existsSync(join(directory, file));
  const newFiles = files.filter(isNew).length;
  for (const id of readdirSync(join(staging, 'runs')).filter((run) => isNew(`runs/${run}`))) {
    renameSync(join(staging, 'runs', id), join(directory, 'runs', id));
  }
  syncFolder(join(directory, 'runs'));
  const rest = files.filter((file) => !file.startsWith('certificates/') && existsSync(join(staging, file)));
  const grown = rest.filter((file) => takeOver(directory, staging, file)).length;
  fileReady(
    join(directory, 'filing'),
    join(directory, 'certificates'),
    `import-${name}`,
    join(staging, 'certificates'),
  );
  return newFiles + grown;
}

/** @returns whether a file that is here already grew [-] */
function takeOver(directory: string, staging: string, file: string): boolean {
  const here = join(directory, file);
  const brought = join(staging, file);
  mkdirSync(dirname(here), { recursive: true });
  if (!existsSync(here)) {
    renameSync(brought, here);
    syncFolder(dirname(here));
    return false;
  }
  if (basename(file) === RECORD_SUMS) return addLines(here, brought);
  if (!GROWING.test(file) || goesOnFrom(here, brought)) return false;
  renameSync(brought, here);
  syncFolder(dirname(here));
  return true;
}

function addLines(here: string, brought: string): boolean {
  const known = new Set(readFileSync(here, 'utf8').split('\n'));
  const added = readFileSync(brought, 'utf8')
    .split('\n')
    .filter((line) => !known.has(line));
  for (const line of added) appendLine(here, line);
  return added.length > 0;
}
