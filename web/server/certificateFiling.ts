import { join } from 'node:path';
import { certificateListEntry } from '../../rig/archive/indexEntries.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import { fileRunCertificate } from '../../rig/session/fileRunCertificate.ts';
import type { FilingCabinet } from './dependencies.ts';
import { RequestError } from './refusals.ts';

/** Files certificates and finds them again. */
export function certificateFiling(archive: Archive): Pick<FilingCabinet, 'fileCertificate' | 'certificatePdfPath'> {
  return {
    fileCertificate: async ({ runIds, signatory }) => {
      const filed = await fileRunCertificate(archive, runIds, signatory);
      if (!filed.ok) throw new RequestError(422, filed.reason.code, filed.reason.text);
      return certificateListEntry(filed.value.data);
    },
    certificatePdfPath: async (number) => {
      if (archive.listedCertificate(number) === null) {
        throw new RequestError(404, 'UNKNOWN_CERTIFICATE', `No certificate has the number ${number}.`);
      }
      return join(archive.directory, 'certificates', `${number}.pdf`);
    },
  };
}
