import { writeFileSync } from 'node:fs';
import { readPresented } from '../../rig/certificate/readPresented.ts';
import { runOutsideTool } from '../support/outsideTool.ts';

/** A certificate's files, in memory. */
export type CertificateBytes = Readonly<Record<'pdf' | 'json' | 'jws', Buffer>>;

/** Whether verifying finds a certificate whole: by its PDF alone, or by its data and their signature. */
export function isWhole(by: 'pdf' | 'json', { pdf, json, jws }: CertificateBytes): boolean {
  const read =
    by === 'pdf'
      ? readPresented({ path: '2026-0001.pdf', bytes: pdf, beside: () => null })
      : readPresented({ path: '2026-0001.json', bytes: json, beside: (ending) => (ending === 'jws' ? jws : null) });
  return 'whole' in read;
}

/**
 * Flips one bit of each byte in turn, another one in each byte and the next.
 *
 * @param bytes - changed in place, and whole again at the end [-]
 * @param isStillWhole - asked with each byte flipped [-]
 * @param positions - of the bytes [-]
 * @returns positions at which nothing was noticed [-]
 */
export function unnoticedFlips(
  bytes: Buffer,
  isStillWhole: () => boolean,
  positions: Iterable<number> = bytes.keys(),
): readonly number[] {
  const unnoticed: number[] = [];
  for (const position of positions) {
    const byte = bytes.readUInt8(position);
    bytes.writeUInt8(byte ^ (1 << (position % 8)), position);
    if (isStillWhole()) unnoticed.push(position);
    bytes.writeUInt8(byte, position);
  }
  return unnoticed;
}

/** Whether pdfsig finds a PDF validly signed as a whole; null where it is not installed. */
export function isWholeToPdfsig(pdf: Buffer, path: string): boolean | null {
  writeFileSync(path, pdf);
  const said = runOutsideTool('pdfsig', ['-nocert', path]);
  if (said === null) return null;
  return said.output.includes('Signature is Valid') && said.output.includes('Total document signed');
}

/**
 * So many places spread over the bytes that a PDF's signature covers, none of them in the signature itself.
 *
 * @param pdf - signed [-]
 * @param count - of the places [-]
 * @param within - where each lies in its share of the bytes, from 0 to 1; left out: in the middle [1]
 */
export function coveredPositions(pdf: Buffer, count: number, within: () => number = () => 0.5): readonly number[] {
  const [, from = '', to = ''] = /\/ByteRange \[0 (\d+) (\d+) \d+\]/.exec(pdf.toString('latin1')) ?? [];
  const hole = Number(to) - Number(from);
  return Array.from({ length: count }, (_, index) => {
    const covered = Math.floor(((index + within()) * (pdf.length - hole)) / count);
    return covered < Number(from) ? covered : covered + hole;
  });
}
