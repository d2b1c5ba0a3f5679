import { type CertificateData, noticeReason } from '../../analysis/certificate/certificateData.ts';
import { type WithdrawalData, withdrawalData } from '../../analysis/certificate/withdrawalData.ts';
import { recordText } from '../archive/recordFile.ts';
import { nextPlace } from './certificateFolder.ts';
import { type FilingArchive, utcSecond } from './fileCertificate.ts';
import type { WorkshopKeys } from './keys.ts';
import { signJws } from './signature/jws.ts';
import { readStandingCertificate } from './standingCertificate.ts';

export type WithdrawalRequest = {
  readonly archive: Pick<FilingArchive, 'directory' | 'withFilingLock' | 'fileTogether'> & {
    putWithdrawal(number: string): void;
  };
  /** The key that signs notices of such a certificate. */
  readonly keysFor: (certificate: CertificateData) => Promise<WorkshopKeys>;
  readonly number: string;
  readonly signatory: string;
  readonly reason: string;
  readonly withdrawnAt: Date;
};

async function fileWithdrawal(request: WithdrawalRequest): Promise<WithdrawalData> {
  const { archive, number, signatory, reason } = request;
  const { data, jsonSha256, pdfSha256 } = readStandingCertificate(archive.directory, number);
  const withdrawal = withdrawalData.parse({
    format: 'slipwright.withdrawal/1',
    number,
    jsonSha256,
    pdfSha256,
    withdrawnAtUtc: utcSecond(request.withdrawnAt),
    signatory,
    reason: noticeReason.parse(reason),
    ...nextPlace(archive.directory),
  } satisfies WithdrawalData);
  const json = Buffer.from(recordText(withdrawal));
  archive.fileTogether(`${number}.withdrawn`, { json, jws: await signJws(json, await request.keysFor(data)) });
  archive.putWithdrawal(number);
  return withdrawal;
}

/**
 * Withdraws a certificate: a notice, signed and chained, lies beside it from then on. The certificate itself stays.
 *
 * @param request - archive, key, number, who withdraws it, why, when [-]
 * @returns the notice as it was filed [-]
 * @throws UnknownCertificateError or CertificateStandingError if there is no such certificate, or it stands no more
 * @throws ArchiveError if the files cannot be written
 */
export async function withdrawCertificate(request: WithdrawalRequest): Promise<WithdrawalData> {
  return request.archive.withFilingLock(() => fileWithdrawal(request));
}
