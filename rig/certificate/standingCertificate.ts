import { readFileSync } from 'node:fs';
import { type CertificateData, certificateData } from '../../analysis/certificate/certificateData.ts';
import { readRecordFile } from '../archive/recordFile.ts';
import { CertificateStandingError, UnknownCertificateError } from './certificateErrors.ts';
import { certificateFolder, certificatePath, filedNumbers, sha256Of } from './certificateFolder.ts';
import { readReplacements, readWithdrawal, standingFrom, standingWords } from './standing.ts';

export type StandingCertificate = {
  readonly data: CertificateData;
  readonly jsonSha256: string;
  readonly pdfSha256: string;
};

/**
 * A filed certificate that may still be replaced or withdrawn.
 *
 * @param archiveDirectory - the archive [-]
 * @param number - of the certificate [-]
 * @returns its data and the hashes of its files [-]
 * @throws UnknownCertificateError if there is none of that number
 * @throws CertificateStandingError if it was replaced or withdrawn before
 */
export function readStandingCertificate(archiveDirectory: string, number: string): StandingCertificate {
  if (!filedNumbers(archiveDirectory).includes(number)) throw new UnknownCertificateError(number);
  const folder = certificateFolder(archiveDirectory);
  const standing = standingFrom(readWithdrawal(folder, number), readReplacements(folder).get(number) ?? null);
  if (standing.state !== 'issued') throw new CertificateStandingError(number, standingWords(standing));
  const jsonPath = certificatePath(archiveDirectory, number, 'json');
  return {
    data: readRecordFile(certificateData, jsonPath),
    jsonSha256: sha256Of(readFileSync(jsonPath)),
    pdfSha256: sha256Of(readFileSync(certificatePath(archiveDirectory, number, 'pdf'))),
  };
}
