import type { Archive } from '../archive/openArchive.ts';
import { type Replay, replayCertificate } from '../session/replayCertificate.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';

/** Differences shown in a terminal; `--json` has them all. */
const SHOWN = 20;

/** Why something came out otherwise. */
function reasons({ numbers, changes, laterVersions }: Replay): readonly string[] {
  if (laterVersions.length > 0) {
    const later = `It was filed with version ${laterVersions.join(' and ')} of the analysis, which this program does not know`;
    return [`${later}: replay it with that program or a later one.`, ...changes];
  }
  if (changes.length > 0) return ['A later version of the analysis does it otherwise:', ...changes];
  if (numbers.length === 0) return ['The numbers are the same: it is worded otherwise.'];
  return [
    'The same version of the analysis gives other numbers: it was changed without saying so, or this machine computes otherwise.',
  ];
}

/** What is demanded of the pump comes first. */
function demandsFirst<Entry extends { readonly path: string }>(entries: readonly Entry[]): readonly Entry[] {
  const isDemand = ({ path }: Entry): boolean => path.startsWith('demands.');
  return [...entries.filter(isDemand), ...entries.filter((entry) => !isDemand(entry))];
}

function replayText(replayed: Replay): string {
  const { number, numbersCompared, numbers, words, analysisVersions, programVersions } = replayed;
  const versions =
    `analysis version ${analysisVersions.filed.join(' and ')} when it was filed, ${analysisVersions.today} today; ` +
    `program ${programVersions.filed} then, ${programVersions.today} today`;
  if (numbers.length === 0 && words.length === 0) {
    return `${number}: ${numbersCompared} numbers were done anew and all are the same (${versions})`;
  }
  const lines = demandsFirst([...numbers, ...words]).map(
    ({ path, filed, today }) => `  ${path}: ${JSON.stringify(filed)} as filed, ${JSON.stringify(today)} today`,
  );
  return [
    `${number}: of ${numbersCompared} numbers that were done anew ${numbers.length} differ, and ${words.length} other entries (${versions})`,
    ...lines.slice(0, SHOWN),
    ...(lines.length > SHOWN ? [`  and ${lines.length - SHOWN} more`] : []),
    ...reasons(replayed),
  ].join('\n');
}

/** `slipwright replay`: does a certificate anew from the journals and compares every number. */
export async function replay(certificate: string, archive: Archive, speaker: Speaker): Promise<ExitCode> {
  const replayed = await replayCertificate(archive, certificate);
  if (!replayed.ok) {
    const { text, code } = replayed.reason;
    speaker.say(`today these runs would allow no certificate: ${text} (${code})`);
    speaker.result({ replayed: false, reason: replayed.reason }, 'nothing could be compared');
    return EXIT.dataSayNo;
  }
  speaker.result(replayed.value, replayText(replayed.value));
  const { numbers, changes, laterVersions } = replayed.value;
  if (numbers.length === 0) return EXIT.done;
  return changes.length > 0 || laterVersions.length > 0 ? EXIT.dataSayNo : EXIT.changed;
}
