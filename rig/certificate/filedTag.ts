import { readFileSync } from 'node:fs';
import { certificateData } from '../../analysis/certificate/certificateData.ts';
import { readRecordFile } from '../archive/recordFile.ts';
import { UnknownCertificateError } from './certificateErrors.ts';
import { certificatePath, filedNumbers } from './certificateFolder.ts';
import { tagPdf } from './pdf/tagPdf.ts';

/**
 * The tie-on tag of a filed certificate; made anew each time, always the same bytes.
 *
 * @param archiveDirectory - the archive [-]
 * @param number - of the certificate [-]
 * @returns the tag [PDF]
 * @throws UnknownCertificateError if there is none of that number
 */
export async function filedTag(archiveDirectory: string, number: string): Promise<Buffer> {
  if (!filedNumbers(archiveDirectory).includes(number)) throw new UnknownCertificateError(number);
  const path = certificatePath(archiveDirectory, number, 'json');
  return tagPdf(readRecordFile(certificateData, path), readFileSync(path));
}
