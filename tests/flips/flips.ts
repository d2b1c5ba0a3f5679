import { readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { DELIVERY_RUN, DRY_RUN, filedArchive } from '../support/filedArchive.ts';
import { type CertificateBytes, coveredPositions, isWhole, isWholeToPdfsig, unnoticedFlips } from './flippedBytes.ts';

/**
 * Flips every byte of a certificate in turn, of its PDF, its data and their signature, and looks whether verifying notices; and
 * whether pdfsig notices a sample of those in the signed range: `npm run flips -- 400`, how many of them.
 */

const [sample = '400'] = process.argv.slice(2);

function tell(what: string, tried: number, unnoticed: readonly number[]): void {
  console.log(
    `${what}: ${tried} bytes flipped, ${unnoticed.length} not noticed ${unnoticed.slice(0, 20).join(' ')}`.trim(),
  );
  if (unnoticed.length > 0) process.exitCode = 1;
}

const { folder, directory, numbers } = await filedArchive([DRY_RUN, DELIVERY_RUN]);
const read = (ending: string): Buffer => readFileSync(join(directory, 'certificates', `${numbers[0]}.${ending}`));
const files: CertificateBytes = { pdf: read('pdf'), json: read('json'), jws: read('jws') };
if (!isWhole('pdf', files) || !isWhole('json', files))
  throw new Error('the certificate is not whole before anything is flipped');
tell(
  'PDF',
  files.pdf.length,
  unnoticedFlips(files.pdf, () => isWhole('pdf', files)),
);
tell(
  'data',
  files.json.length,
  unnoticedFlips(files.json, () => isWhole('json', files)),
);
tell(
  'signature of the data',
  files.jws.length,
  unnoticedFlips(files.jws, () => isWhole('json', files)),
);
const path = join(folder, 'flipped.pdf');
const byPdfsig = (): boolean => isWholeToPdfsig(files.pdf, path) ?? false;
if (byPdfsig()) {
  const positions = coveredPositions(files.pdf, Number(sample));
  tell('PDF, by pdfsig', positions.length, unnoticedFlips(files.pdf, byPdfsig, positions));
} else {
  console.log('pdfsig is not installed, or does not find the certificate whole');
  process.exitCode = 1;
}
rmSync(folder, { recursive: true, force: true });
