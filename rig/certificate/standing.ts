import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import { certificateData } from '../../analysis/certificate/certificateData.ts';
import { type WithdrawalData, withdrawalData } from '../../analysis/certificate/withdrawalData.ts';
import { readRecordFile } from '../archive/recordFile.ts';
import { FilesRead } from './filesRead.ts';

const JSON_OF_CERTIFICATE = /^\d{4}-\d{4,6}\.json$/;
const WITHDRAWAL = /^(\d{4}-\d{4,6})\.withdrawn\.json$/;
/** As every certificate that takes another's place is written; found before the whole file is parsed. */
const REPLACES = '"replaces": {';
const replacement = z.looseObject({ number: z.string(), replaces: certificateData.shape.replaces });

/** The certificate that took another's place. */
export type Replacement = { readonly by: string; readonly reason: string };

/** Whether a certificate still speaks for its pump, as far as an archive knows. */
export type Standing =
  | { readonly state: 'issued' }
  | ({ readonly state: 'replaced' } & Replacement)
  | { readonly state: 'withdrawn'; readonly atUtc: string; readonly signatory: string; readonly reason: string };

/** Where a certificate's withdrawal lies, and its signature. */
export function withdrawalPath(folder: string, number: string, ending: 'json' | 'jws'): string {
  return join(folder, `${number}.withdrawn.${ending}`);
}

/** The withdrawal of a certificate; null: it was not withdrawn. @throws RecordError if the notice cannot be read */
export function readWithdrawal(folder: string, number: string): WithdrawalData | null {
  const path = withdrawalPath(folder, number, 'json');
  return existsSync(path) ? readRecordFile(withdrawalData, path) : null;
}

function replacementIn(path: string): z.infer<typeof replacement> | null {
  const text = readFileSync(path);
  if (!text.includes(REPLACES)) return null;
  try {
    return replacement.parse(JSON.parse(text.toString('utf8')));
  } catch {
    // It is told of where it is verified itself.
    return null;
  }
}

/** Numbers of the certificates that were withdrawn. */
export function withdrawnNumbers(folder: string): readonly string[] {
  return existsSync(folder) ? readdirSync(folder).flatMap((name) => WITHDRAWAL.exec(name)?.[1] ?? []) : [];
}

/**
 * Every certificate of a folder whose place was taken, by its number, from the files that took it.
 *
 * @param folder - of certificates [-]
 * @param files - what is known of files already [-]
 */
export function readReplacements(folder: string, files = new FilesRead()): ReadonlyMap<string, Replacement> {
  const replaced = new Map<string, Replacement>();
  for (const name of readdirSync(folder).filter((entry) => JSON_OF_CERTIFICATE.test(entry))) {
    const path = join(folder, name);
    const { number = '', replaces = null } = files.noted(path)?.data ?? replacementIn(path) ?? {};
    if (replaces !== null) replaced.set(replaces.number, { by: number, reason: replaces.reason });
  }
  return replaced;
}

/** A withdrawal counts before a replacement: it is the later word. */
export function standingFrom(withdrawal: WithdrawalData | null, replacement: Replacement | null): Standing {
  if (withdrawal !== null) {
    const { withdrawnAtUtc: atUtc, signatory, reason } = withdrawal;
    return { state: 'withdrawn', atUtc, signatory, reason };
  }
  return replacement === null ? { state: 'issued' } : { state: 'replaced', ...replacement };
}

/** In words; empty where it stands. */
export function standingWords(standing: Standing): string {
  switch (standing.state) {
    case 'issued':
      return '';
    case 'replaced':
      return `replaced by ${standing.by}: ${standing.reason}`;
    case 'withdrawn':
      return `withdrawn on ${standing.atUtc.slice(0, 10)} by ${standing.signatory}: ${standing.reason}`;
  }
}
