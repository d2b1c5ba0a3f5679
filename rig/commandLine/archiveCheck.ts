import { type ArchiveCheck, checkArchive } from '../archive/check/checkArchive.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

function checkText({ filesRead, flaws }: ArchiveCheck): string {
  const lines = flaws.map(
    ({ severity, file, text }) => `${severity === 'wrong' ? 'WRONG' : 'note '}  ${file}: ${text}`,
  );
  const wrong = flaws.filter(({ severity }) => severity === 'wrong').length;
  const verdict = wrong === 0 ? 'everything is as it was filed' : `${wrong} are not as they should be`;
  return [...lines, `${filesRead} files read: ${verdict}`].join('\n');
}

/** `slipwright archive check`: reads everything and says what is wrong; writes nothing. */
export async function archiveCheck(directory: string, speaker: Speaker): Promise<ExitCode> {
  const check = await checkArchive(directory, (text) => speaker.progress(text));
  speaker.result(check, checkText(check));
  return check.flaws.some(({ severity }) => severity === 'wrong') ? EXIT.changed : EXIT.done;
}
