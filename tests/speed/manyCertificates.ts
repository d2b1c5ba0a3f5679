import { copyFileSync, linkSync, mkdirSync, readFileSync, statfsSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { certificatePath } from '../../rig/certificate/certificateFolder.ts';
import type { FiledArchive } from '../support/filedArchive.ts';

/** A file may have so many names at most: ext4 allows 65,000. */
const MOST_LINKS = 50_000;

/** @throws Error if a folder has not so much room [bytes] */
export function needRoom(folder: string, bytes: number): void {
  const { bavail, bsize } = statfsSync(folder);
  const free = bavail * bsize;
  const gb = (value: number): string => `${(value / 1e9).toFixed(1)} GB`;
  if (free < bytes) throw new Error(`${folder}: has ${gb(free)} of room, expected ${gb(bytes)}`);
}

/**
 * Copies filed certificates, PDF and data, into folder after folder, each of which holds their whole chain.
 *
 * @param filed - the archive that they are copied from [-]
 * @param into - folder that takes the folders [-]
 * @param count - certificates to be had; a multiple of those that were filed [-]
 * @returns paths of the PDFs [-]
 */
export function copyCertificates(filed: FiledArchive, into: string, count: number): readonly string[] {
  return Array.from({ length: count / filed.numbers.length }, (_, folder) => {
    const directory = join(into, `${folder}`);
    mkdirSync(directory, { recursive: true });
    return filed.numbers.map((number) => {
      for (const ending of ['pdf', 'json'] as const) {
        copyFileSync(certificatePath(filed.directory, number, ending), join(directory, `${number}.${ending}`));
      }
      return join(directory, `${number}.pdf`);
    });
  }).flat();
}

/** What is told of an invented certificate: another pump of another machine for each, so that words part them. */
export type Invented = { readonly number: string; readonly serialNumber: string; readonly machine: string };

/** Forty years of them, for a hundred thousand. */
const FIRST_YEAR = 1986;
const A_YEAR = 2_500;

const MACHINES = ['canal dredger', 'lock gate', 'paper mill', 'steam crane', 'rope ferry', 'pump house', 'ice works'];

export function invented(index: number): Invented {
  const year = FIRST_YEAR + Math.floor(index / A_YEAR);
  return {
    number: `${year}-${String((index % A_YEAR) + 1).padStart(4, '0')}`,
    serialNumber: `KB-${String(index).padStart(6, '0')}`,
    machine: `${MACHINES[index % MACHINES.length]} ${Math.floor(index / 20)} (invented)`,
  };
}

/**
 * Writes the files of many certificates as an index is made from them: the data of a filed one, each with its own number, day,
 * serial number and machine. Their PDFs are one file under many names, and so are their signatures: an index reads neither.
 *
 * @param filed - the archive that holds the pattern [-]
 * @param into - certificate folder of an archive that has none [-]
 * @param count - certificates to be written [-]
 * @returns bytes that were written [-]
 */
export function inventCertificates(filed: FiledArchive, into: string, count: number): number {
  const [number = ''] = filed.numbers;
  const pattern = readFileSync(certificatePath(filed.directory, number, 'json'), 'utf8');
  let written = 0;
  let shared = '';
  for (let index = 0; index < count; index += 1) {
    if (index % MOST_LINKS === 0) {
      shared = certificatePath(filed.directory, number, 'pdf').replace('.pdf', `.${index}`);
      for (const ending of ['pdf', 'jws'] as const) {
        copyFileSync(certificatePath(filed.directory, number, ending), `${shared}.${ending}`);
      }
    }
    const own = invented(index);
    const day = new Date(Date.UTC(Number(own.number.slice(0, 4)), 0, 1, 2 * (index % A_YEAR))).toISOString();
    const json = Buffer.from(
      pattern
        .replace(`\n  "number": "${number}"`, `\n  "number": "${own.number}"`)
        .replace(/\n {2}"issuedAtUtc": "[^"]+"/, `\n  "issuedAtUtc": "${day.slice(0, 19)}Z"`)
        .replaceAll(/"serialNumber": "KB-[^"]*"/g, `"serialNumber": "${own.serialNumber}"`)
        .replaceAll(/"machine": "[^"]*"/g, `"machine": "${own.machine}"`),
    );
    writeFileSync(join(into, `${own.number}.json`), json);
    written += json.length;
    for (const ending of ['pdf', 'jws']) linkSync(`${shared}.${ending}`, join(into, `${own.number}.${ending}`));
  }
  return written;
}
