import type { Handover } from '../../analysis/records/handover.ts';
import { unitOf } from '../../analysis/units.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { PaperName } from '../certificate/pdf/style.ts';
import { fileRunCertificate } from '../session/fileRunCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

export type CertifyOptions = {
  readonly signatory: string;
  readonly replaces?: string;
  readonly reason?: string;
  readonly runInHours?: number;
  readonly preservative?: string;
  readonly coverAndGasket?: 'tested' | 'other';
  readonly remarks?: string;
  readonly paper: PaperName;
};

const S_PER_H = unitOf('h').siPerUnit;

/** What was stated on the command line of the day of sealing. */
function handoverOf({ runInHours, preservative, coverAndGasket, remarks }: CertifyOptions): Handover {
  return {
    runInTimeS: runInHours === undefined ? null : runInHours * S_PER_H,
    preservative: preservative ?? '',
    isSealedAsTested: coverAndGasket === undefined ? null : coverAndGasket === 'tested',
    remarks: remarks ?? '',
  };
}

/** `slipwright certify`: files a certificate on runs of one pump. Exit 3 where the runs do not allow one. */
export async function certify(
  runIds: readonly string[],
  options: CertifyOptions,
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  const { signatory, replaces, reason } = options;
  if (replaces !== undefined && reason === undefined)
    throw new WrongUse('--replaces needs --reason: why another takes its place');
  if (replaces === undefined && reason !== undefined)
    throw new WrongUse('--reason is for --replaces, which is not given');
  const old = replaces === undefined || reason === undefined ? null : { number: replaces, reason };
  const filed = await fileRunCertificate(archive, runIds, signatory, {
    replaces: old ?? undefined,
    handover: handoverOf(options),
    paper: options.paper,
  });
  if (!filed.ok) {
    speaker.say(`no certificate: ${filed.reason.text} (${filed.reason.code})`);
    speaker.result({ filed: false, reason: filed.reason }, 'nothing was filed');
    return EXIT.dataSayNo;
  }
  const { number, paths, data } = filed.value;
  for (const doubt of data.dateDoubts) speaker.say(`note: ${doubt}`);
  speaker.result(
    { filed: true, number, paths, outcome: data.outcome },
    `${data.title}\nfiled as ${number}${old === null ? '' : ` in place of ${old.number}`}: ${paths.pdf}`,
  );
  return EXIT.done;
}
