import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { z } from 'zod';
import { messageOf } from '../../errors.ts';
import { measureFile } from '../measureFile.ts';
import { readRecordFile } from '../recordFile.ts';
import { RECORD_SUMS } from '../recordStore.ts';
import { noteStray } from './checkStrays.ts';
import type { Findings } from './flaw.ts';

type Versioned = { readonly id: string; readonly version: number };

const VERSION = /^([1-9]\d*)\.json$/;

/** SHA-256 by file name, as sha256sum writes them; a name may have several, of which one must fit. */
function sumsIn(path: string): ReadonlyMap<string, readonly string[]> {
  const sums = new Map<string, string[]>();
  if (!existsSync(path)) return sums;
  for (const line of readFileSync(path, 'utf8').split('\n')) {
    const [, sha256, name] = /^([0-9a-f]{64}) {2}(\S+)$/.exec(line) ?? [];
    if (sha256 !== undefined && name !== undefined) sums.set(name, [...(sums.get(name) ?? []), sha256]);
  }
  return sums;
}

/**
 * Checks every version of the records in a folder: read by its schema, named as it says, counted without a gap, and with the
 * SHA-256 it was stored with.
 */
export function checkRecords<Stored extends Versioned>(
  folder: string,
  schema: z.ZodType<Stored>,
  findings: Findings,
): void {
  if (!existsSync(folder)) return;
  for (const id of readdirSync(folder).sort()) checkVersions(join(folder, id), id, schema, findings);
}

function checkVersions<Stored extends Versioned>(
  folder: string,
  id: string,
  schema: z.ZodType<Stored>,
  findings: Findings,
): void {
  const names = readdirSync(folder);
  const sums = sumsIn(join(folder, RECORD_SUMS));
  const versions = names
    .map((name) => Number(VERSION.exec(name)?.[1]))
    .filter((version) => version > 0)
    .sort((a, b) => a - b);
  for (const name of names) if (!VERSION.test(name) && name !== RECORD_SUMS) noteStray(join(folder, name), findings);
  for (const name of sums.keys()) if (!names.includes(name)) findings.wrong(join(folder, name), 'it is missing');
  for (const [index, version] of versions.entries()) {
    const path = join(folder, `${version}.json`);
    if (version !== index + 1) findings.wrong(folder, `version ${index + 1} is missing before version ${version}`);
    checkVersion(path, { id, version }, schema, sums.get(`${version}.json`) ?? [], findings);
  }
}

function checkVersion<Stored extends Versioned>(
  path: string,
  expected: Versioned,
  schema: z.ZodType<Stored>,
  sums: readonly string[],
  findings: Findings,
): void {
  findings.filesRead += 1;
  const { sha256 } = measureFile(path);
  if (sums.length === 0) findings.note(path, 'its SHA-256 was not kept when it was stored');
  else if (!sums.includes(sha256)) findings.wrong(path, `expected SHA-256 ${sums.join(' or ')}, got ${sha256}`);
  try {
    const { id, version } = readRecordFile(schema, path);
    if (id === expected.id && version === expected.version) return;
    findings.wrong(path, `says that it is version ${version} of ${JSON.stringify(id)}`);
  } catch (error) {
    findings.wrong(path, messageOf(error));
  }
}
