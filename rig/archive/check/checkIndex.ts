import { existsSync } from 'node:fs';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { z } from 'zod';
import { certificateFolder, certificatePath, filedNumbers } from '../../certificate/certificateFolder.ts';
import { type Replacement, readReplacements, readWithdrawal, standingFrom } from '../../certificate/standing.ts';
import { messageOf } from '../../errors.ts';
import { INDEX_FILE } from '../archiveIndex.ts';
import { findableCertificate, foundEntry, indexedCertificate } from '../indexEntries.ts';
import { INDEX_MIGRATIONS } from '../indexMigrations.ts';
import { readMembers } from '../jsonMembers.ts';
import { RUN_FILES } from '../runFiles.ts';
import type { Findings } from './flaw.ts';

const row = z.strictObject({ what: z.string(), id: z.string(), entry: z.string() });

/** Checks the index against the files, which are the truth: it lists what is not there, or says otherwise than they do. */
export function checkIndex(directory: string, findings: Findings): void {
  const path = join(directory, INDEX_FILE);
  if (!existsSync(path)) {
    findings.note(path, 'there is none: it is made anew at the next start');
    return;
  }
  try {
    const database = new Database(path, { readonly: true });
    try {
      compare(directory, database, path, findings);
    } finally {
      database.close();
    }
  } catch (error) {
    findings.wrong(path, `cannot be read (${messageOf(error)}); 'archive rebuild' makes it anew from the files`);
  }
}

function compare(directory: string, database: Database.Database, path: string, findings: Findings): void {
  if (database.pragma('user_version', { simple: true }) !== INDEX_MIGRATIONS.length) {
    findings.note(path, 'is of another version of this program: an earlier one is made anew at the next start');
    return;
  }
  const rebuild = "'archive rebuild' makes the index anew from the files";
  const filed = new Set(filedNumbers(directory));
  const replacements = readReplacements(certificateFolder(directory));
  const listed = new Set<string>();
  for (const entry of database.prepare('SELECT what, id, entry FROM entries').iterate()) {
    const { what, id, entry: text } = row.parse(entry);
    if (what === 'certificate') {
      listed.add(id);
      if (!filed.has(id))
        findings.wrong(certificatePath(directory, id, 'json'), 'the index lists it, and it is not here as a whole');
      else if (!saysTheSame(directory, id, replacements.get(id) ?? null, text))
        findings.wrong(path, `says otherwise than certificate ${id}; ${rebuild}`);
    }
    if (what === 'run' && !existsSync(join(directory, 'runs', id, RUN_FILES.run))) {
      findings.wrong(join(directory, 'runs', id), 'the index lists this run, and it is not here');
    }
    if (what === 'pump' && !existsSync(join(directory, 'pumps', id))) {
      findings.wrong(join(directory, 'pumps', id), 'the index lists this pump, and it is not here');
    }
  }
  const unlisted = [...filed].filter((number) => !listed.has(number)).length;
  if (unlisted > 0) findings.note(path, `${unlisted} certificates are not in it yet: they are added at the next start`);
}

function saysTheSame(directory: string, number: string, replacement: Replacement | null, entry: string): boolean {
  try {
    const standing = standingFrom(readWithdrawal(certificateFolder(directory), number), replacement);
    const { entry: certificate } = indexedCertificate(
      readMembers(findableCertificate, certificatePath(directory, number, 'json')),
      standing,
    );
    const found = foundEntry.parse(JSON.parse(entry));
    return JSON.stringify(found) === JSON.stringify(foundEntry.parse({ what: 'certificate', certificate }));
  } catch {
    return false;
  }
}
