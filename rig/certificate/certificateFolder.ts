import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import {
  type ChainedNotice,
  type ChainPlace,
  chainPlace,
  type PreviousCertificate,
} from '../../analysis/certificate/certificateData.ts';
import { readRecordFile } from '../archive/recordFile.ts';

const NUMBERED = /^(\d{4})-(\d{4,6})\.(?:json|jws|pdf)$/;
const COUNTER_DIGITS = 4;

/** Signed notices that lie among the certificates: one was withdrawn, or the key was changed. */
const NOTICE = /^(?:\d{4}-\d{4,6}\.withdrawn|key-\d{4})\.json$/;
const placeOfNotice = z.looseObject(chainPlace);

/** What a certificate consists of; it is filed with all of them, and never listed without one. */
export const CERTIFICATE_ENDINGS = ['json', 'jws', 'pdf'] as const;
export type CertificateEnding = (typeof CERTIFICATE_ENDINGS)[number];

type Number = { readonly year: number; readonly counter: number };

/** Where an archive keeps its certificates. */
export function certificateFolder(archiveDirectory: string): string {
  return join(archiveDirectory, 'certificates');
}

export function certificatePath(archiveDirectory: string, number: string, ending: CertificateEnding): string {
  return join(certificateFolder(archiveDirectory), `${number}.${ending}`);
}

export function sha256Of(bytes: Uint8Array): string {
  return createHash('sha256').update(bytes).digest('hex');
}

function printed({ year, counter }: Number): string {
  return `${year}-${String(counter).padStart(COUNTER_DIGITS, '0')}`;
}

/** The number of the certificate that a file belongs to; null: it belongs to none. */
export function numberOfFile(name: string): string | null {
  const [, year, counter] = NUMBERED.exec(name) ?? [];
  return year === undefined || counter === undefined ? null : `${year}-${counter}`;
}

/** Whether a file is a notice or its signature. */
export function isNotice(name: string): boolean {
  return NOTICE.test(name.replace(/\.jws$/, '.json'));
}

/** Every number that a file bears, oldest first, filed or half filed. */
function numbersIn(archiveDirectory: string): readonly Number[] {
  const folder = certificateFolder(archiveDirectory);
  if (!existsSync(folder)) return [];
  const found = new Map<string, Number>();
  for (const name of readdirSync(folder)) {
    const [, year, counter] = NUMBERED.exec(name) ?? [];
    if (year === undefined || counter === undefined) continue;
    const number = { year: Number(year), counter: Number(counter) };
    found.set(printed(number), number);
  }
  return [...found.values()].sort((a, b) => a.year - b.year || a.counter - b.counter);
}

/** Numbers of the certificates that are filed as a whole, oldest first. */
export function filedNumbers(archiveDirectory: string): readonly string[] {
  return numbersIn(archiveDirectory)
    .map(printed)
    .filter((number) =>
      CERTIFICATE_ENDINGS.every((ending) => existsSync(certificatePath(archiveDirectory, number, ending))),
    );
}

/**
 * The next free number: year of issue and a counter. Numbers never go back, even where the clock does, and a half-filed
 * one is not used again.
 *
 * @param archiveDirectory - the archive [-]
 * @param issuedAt - date of issue [-]
 */
export function nextNumber(archiveDirectory: string, issuedAt: Date): string {
  const last = numbersIn(archiveDirectory).at(-1);
  const year = Math.max(issuedAt.getUTCFullYear(), last?.year ?? 0);
  return printed({ year, counter: last?.year === year ? last.counter + 1 : 1 });
}

function lastCertificate(archiveDirectory: string): PreviousCertificate | null {
  const number = filedNumbers(archiveDirectory).at(-1);
  if (number === undefined) return null;
  const hashOf = (ending: CertificateEnding) =>
    sha256Of(readFileSync(certificatePath(archiveDirectory, number, ending)));
  return { number, jsonSha256: hashOf('json'), pdfSha256: hashOf('pdf') };
}

/** Names of the notices' files, in no order of time. */
export function noticeNames(folder: string): readonly string[] {
  return existsSync(folder) ? readdirSync(folder).filter((name) => NOTICE.test(name)) : [];
}

/** Notices that were filed after a certificate and before the next, oldest first: each names those before it. */
function noticesAfter(folder: string, number: string | null): ChainedNotice[] {
  return noticeNames(folder)
    .map((file) => ({ file, place: readRecordFile(placeOfNotice, join(folder, file)) }))
    .filter(({ place }) => (place.previous?.number ?? null) === number)
    .sort((a, b) => a.place.notices.length - b.place.notices.length)
    .map(({ file }) => ({ file, jsonSha256: sha256Of(readFileSync(join(folder, file))) }));
}

/**
 * Where the next filing stands: the certificate before it, and the notices since.
 *
 * @param archiveDirectory - the archive, locked for a filing [-]
 * @throws RecordError naming a notice that cannot be read
 */
export function nextPlace(archiveDirectory: string): ChainPlace {
  const previous = lastCertificate(archiveDirectory);
  return { previous, notices: noticesAfter(certificateFolder(archiveDirectory), previous?.number ?? null) };
}
