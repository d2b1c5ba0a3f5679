import type { WithdrawalData } from '../../analysis/certificate/withdrawalData.ts';
import type { Archive } from '../archive/openArchive.ts';
import { withdrawCertificate } from '../certificate/withdrawCertificate.ts';
import { keysFor } from './signingKeys.ts';

/**
 * Withdraws a filed certificate, signed by the key that this machine signs such certificates with.
 *
 * @param archive - where it is filed [-]
 * @param number - of the certificate [-]
 * @param signatory - who withdraws it [-]
 * @param reason - why [-]
 * @throws UnknownCertificateError, CertificateStandingError, KeyError or ArchiveError
 */
export function withdrawRunCertificate(
  archive: Archive,
  number: string,
  signatory: string,
  reason: string,
): Promise<WithdrawalData> {
  const withdrawnAt = new Date();
  return withdrawCertificate({
    archive,
    keysFor: ({ isSpecimen, workshop }) => keysFor(workshop, withdrawnAt, isSpecimen),
    number,
    signatory,
    reason,
    withdrawnAt,
  });
}
