import { join } from 'node:path';
import { certificateListEntry } from '../../rig/archive/indexEntries.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import { certificateFolder } from '../../rig/certificate/certificateFolder.ts';
import { CertificateLedger } from '../../rig/certificate/certificateLedger.ts';
import { filedTag } from '../../rig/certificate/filedTag.ts';
import { knownFingerprints } from '../../rig/certificate/keys.ts';
import { verifyDropped } from '../../rig/certificate/verifyDropped.ts';
import { fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';
import { withdrawRunCertificate } from '../../rig/session/withdrawRunCertificate.ts';
import type { CertificateListEntry } from '../api.ts';
import type { FilingCabinet } from './dependencies.ts';
import { RequestError } from './refusals.ts';

export type CertificateCabinet = Pick<
  FilingCabinet,
  | 'fileCertificate'
  | 'listedCertificate'
  | 'certificatePdfPath'
  | 'certificateJsonPath'
  | 'certificateTag'
  | 'withdrawCertificate'
  | 'verifyFiles'
>;

/** The page waits: the whole chain is for the command line. */
const LONGEST_WALK = 20;

/** Files certificates, finds them again, withdraws them, and verifies those that somebody brings. */
export function certificateFiling(archive: Archive): CertificateCabinet {
  const listed = (number: string): CertificateListEntry => {
    const found = archive.listedCertificate(number);
    if (found === null) {
      throw new RequestError(404, 'UNKNOWN_CERTIFICATE', `No certificate has the number ${number}.`);
    }
    return found;
  };
  return {
    fileCertificate: async ({ runIds, signatory, ...wishes }) => {
      const filed = await fileRunCertificate(archive, runIds, signatory, wishes);
      if (!filed.ok) throw new RequestError(422, filed.reason.code, filed.reason.text);
      return certificateListEntry(filed.value.data);
    },
    listedCertificate: async (number) => listed(number),
    certificatePdfPath: async (number) => join(archive.directory, 'certificates', `${listed(number).number}.pdf`),
    certificateJsonPath: async (number) => join(archive.directory, 'certificates', `${listed(number).number}.json`),
    certificateTag: async (number) => filedTag(archive.directory, listed(number).number),
    withdrawCertificate: async (number, { signatory, reason }) => {
      await withdrawRunCertificate(archive, listed(number).number, signatory, reason);
      return listed(number);
    },
    verifyFiles: async ({ files }) => {
      const ledger = new CertificateLedger(certificateFolder(archive.directory), { longestWalk: LONGEST_WALK });
      const dropped = files.map(({ name, base64 }) => ({ name, bytes: Buffer.from(base64, 'base64') }));
      return verifyDropped(dropped, { knownKeys: knownFingerprints(), ledgers: [ledger] });
    },
  };
}
