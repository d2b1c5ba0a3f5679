import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { PreviousCertificate } from '../../analysis/certificate/certificateData.ts';

const NUMBERED = /^(\d{4})-(\d{4,6})\.(?:json|jws|pdf)$/;
const COUNTER_DIGITS = 4;

/** The PDF is written last: with it a certificate is filed, without it the number is lost and never listed. */
const CERTIFICATE_ENDINGS = ['json', 'jws', 'pdf'] as const;
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

/** The certificate that the next one names as the one before it. */
export function previousCertificate(archiveDirectory: string): PreviousCertificate | null {
  const number = filedNumbers(archiveDirectory).at(-1);
  if (number === undefined) return null;
  const hashOf = (ending: CertificateEnding) =>
    sha256Of(readFileSync(certificatePath(archiveDirectory, number, ending)));
  return { number, jsonSha256: hashOf('json'), pdfSha256: hashOf('pdf') };
}
