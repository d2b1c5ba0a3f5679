import type { Archive } from '../archive/openArchive.ts';
import { withdrawRunCertificate } from '../session/withdrawRunCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

export type WithdrawOptions = { readonly signatory: string; readonly reason: string };

/** `slipwright withdraw`: a certificate no longer speaks for its pump; it stays where it is, with a signed notice beside it. */
export async function withdraw(
  number: string,
  { signatory, reason }: WithdrawOptions,
  archive: Archive,
  speaker: Speaker,
): Promise<ExitCode> {
  const withdrawal = await withdrawRunCertificate(archive, number, signatory, reason);
  speaker.result({ withdrawn: true, ...withdrawal }, `${number} is withdrawn: ${withdrawal.reason}`);
  return EXIT.done;
}
