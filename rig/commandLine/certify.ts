import type { Archive } from '../archive/openArchive.ts';
import { fileRunCertificate } from '../session/fileRunCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

/** `slipwright certify`: files a certificate on runs of one pump. Exit 3 where the runs do not allow one. */
export async function certify(
  runIds: readonly string[],
  signatory: string,
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  const filed = await fileRunCertificate(archive, runIds, signatory);
  if (!filed.ok) {
    speaker.say(`no certificate: ${filed.reason.text} (${filed.reason.code})`);
    speaker.result({ filed: false, reason: filed.reason }, 'nothing was filed');
    return EXIT.dataSayNo;
  }
  const { number, paths, data } = filed.value;
  speaker.result(
    { filed: true, number, paths, outcome: data.outcome },
    `${data.title}\nfiled as ${number}: ${paths.pdf}`,
  );
  return EXIT.done;
}
