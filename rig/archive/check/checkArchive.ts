import { existsSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { benchRecord } from '../../../analysis/records/benchRecord.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { stripSheet } from '../../../analysis/records/stripSheet.ts';
import { testDayEntry } from '../../../analysis/records/testDayEntry.ts';
import { messageOf } from '../../errors.ts';
import { ArchiveError } from '../archiveErrors.ts';
import { ARCHIVE_FOLDERS } from '../archiveFolders.ts';
import { INDEX_FILE } from '../archiveIndex.ts';
import { hasUnsettled } from '../fileTogether.ts';
import { importRecord } from '../history/historyManifest.ts';
import { readJsonLines } from '../jsonLines.ts';
import { measureFile } from '../measureFile.ts';
import { readRecordFile } from '../recordFile.ts';
import { checkCertificates } from './checkCertificates.ts';
import { checkIndex } from './checkIndex.ts';
import { checkRecords } from './checkRecords.ts';
import { checkRuns } from './checkRuns.ts';
import { noteStray } from './checkStrays.ts';
import { Findings, type Flaw } from './flaw.ts';

export type ArchiveCheck = { readonly filesRead: number; readonly flaws: readonly Flaw[] };

const TOP_NAMES: ReadonlySet<string> = new Set([
  ...ARCHIVE_FOLDERS,
  ...['README.txt', INDEX_FILE, `${INDEX_FILE}-wal`, `${INDEX_FILE}-shm`],
]);

/**
 * Reads every file of an archive and compares: records with their schemas and sums, runs with their closings, certificates with
 * their signatures, the chain through them, all of them with each other and the index with the files. Nothing is written, so
 * that an archive on a read-only medium can be checked, and one that is in use.
 *
 * @param directory - the archive's folder [-]
 * @param progress - told now and then how far it is [-]
 * @throws ArchiveError if there is no archive in that folder
 */
export async function checkArchive(
  directory: string,
  progress: (text: string) => void = () => undefined,
): Promise<ArchiveCheck> {
  if (!existsSync(join(directory, 'runs')) || !existsSync(join(directory, 'certificates'))) {
    throw new ArchiveError(directory, 'is no archive: expected the folders runs and certificates in it');
  }
  const findings = new Findings(directory, importedNumbers(directory));
  checkImports(join(directory, 'imports'), findings);
  for (const name of readdirSync(directory)) if (!TOP_NAMES.has(name)) noteStray(join(directory, name), findings);
  checkRecords(join(directory, 'pumps'), pumpRecord, findings);
  checkRecords(join(directory, 'strips'), stripSheet, findings);
  checkRecords(join(directory, 'benches'), benchRecord, findings);
  checkDays(join(directory, 'days'), findings);
  checkAttachments(join(directory, 'attachments'), findings);
  progress('runs');
  checkRuns(directory, findings);
  checkFilings(join(directory, 'filing'), findings);
  await checkCertificates(directory, findings, progress);
  progress('index');
  checkIndex(directory, findings);
  return { filesRead: findings.filesRead, flaws: findings.flaws };
}

function importRecordsIn(folder: string): readonly string[] {
  return existsSync(folder) ? readdirSync(folder).map((name) => join(folder, name)) : [];
}

/** What cannot be read is said by {@link checkImports}. */
function importedNumbers(directory: string): ReadonlySet<string> {
  const numbers = importRecordsIn(join(directory, 'imports')).flatMap((path) => {
    try {
      return readRecordFile(importRecord, path).history.certificates;
    } catch {
      return [];
    }
  });
  return new Set(numbers);
}

function checkImports(folder: string, findings: Findings): void {
  for (const path of importRecordsIn(folder)) {
    findings.filesRead += 1;
    try {
      readRecordFile(importRecord, path);
    } catch (error) {
      findings.wrong(path, messageOf(error));
    }
  }
}

function checkFilings(folder: string, findings: Findings): void {
  if (existsSync(folder) && hasUnsettled(folder)) {
    findings.note(folder, 'a certificate is being filed, or its filing was cut off; the next start ends it');
  }
}

function checkDays(folder: string, findings: Findings): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    findings.filesRead += 1;
    try {
      readJsonLines(testDayEntry, path);
    } catch (error) {
      findings.wrong(path, messageOf(error));
    }
  }
}

/** An attachment is called by its SHA-256. */
function checkAttachments(folder: string, findings: Findings): void {
  if (!existsSync(folder)) return;
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (!/^[0-9a-f]{64}$/.test(name)) {
      noteStray(path, findings);
      continue;
    }
    findings.filesRead += 1;
    const { sha256 } = measureFile(path);
    if (sha256 !== name) findings.wrong(path, `its SHA-256 is ${sha256}, and its name says otherwise`);
  }
}
