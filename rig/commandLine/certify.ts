import type { Archive } from '../archive/openArchive.ts';
import { fileRunCertificate } from '../session/fileRunCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

export type CertifyOptions = {
  readonly signatory: string;
  readonly replaces?: string;
  readonly reason?: string;
};

/** `slipwright certify`: files a certificate on runs of one pump. Exit 3 where the runs do not allow one. */
export async function certify(
  runIds: readonly string[],
  { signatory, replaces, reason }: CertifyOptions,
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  if (replaces !== undefined && reason === undefined)
    throw new WrongUse('--replaces needs --reason: why another takes its place');
  if (replaces === undefined && reason !== undefined)
    throw new WrongUse('--reason is for --replaces, which is not given');
  const old = replaces === undefined || reason === undefined ? null : { number: replaces, reason };
  const filed = await fileRunCertificate(archive, runIds, signatory, old);
  if (!filed.ok) {
    speaker.say(`no certificate: ${filed.reason.text} (${filed.reason.code})`);
    speaker.result({ filed: false, reason: filed.reason }, 'nothing was filed');
    return EXIT.dataSayNo;
  }
  const { number, paths, data } = filed.value;
  speaker.result(
    { filed: true, number, paths, outcome: data.outcome },
    `${data.title}\nfiled as ${number}${old === null ? '' : ` in place of ${old.number}`}: ${paths.pdf}`,
  );
  return EXIT.done;
}
