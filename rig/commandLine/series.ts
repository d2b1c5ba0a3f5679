import { intervalWords, machineWords } from '../../analysis/dryLift/dryLiftWords.ts';
import { seriesWords } from '../../analysis/dryLift/series/seriesWords.ts';
import { timeIntervalWords } from '../../analysis/dryLift/series/timeIntervalWords.ts';
import { togetherWords } from '../../analysis/dryLift/series/togetherWords.ts';
import { printRpm } from '../../analysis/formatStated.ts';
import type { Archive } from '../archive/openArchive.ts';
import { type DryEvidence, dryEvidence } from '../session/dryEvidence.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

function seriesText({ series, together }: DryEvidence): string {
  const lines: string[] = [];
  if (series !== null) {
    lines.push(...seriesWords(series), ...series.warnings.map(({ text }) => `warning: ${text}`));
    for (const { runId, primingTimeS, watchedForS, whyNotCounted } of series.starts) {
      const time =
        primingTimeS === null ? `no oil in ${watchedForS?.toFixed(1)} s` : `${primingTimeS.value.toFixed(2)} s`;
      lines.push(`  ${runId}  ${time}${whyNotCounted === null ? '' : `  not counted: ${whyNotCounted}`}`);
    }
  }
  if (!together.ok) return [...lines, `No limit is estimated. ${together.reason.text}`].join('\n');
  const { limitAgainstSpeed, timeAgainstLift, timeSpeedRevPerS, wetness } = together.value;
  lines.push(...togetherWords(together.value), `limit against speed, in class ${wetness}:`);
  for (const { speedRevPerS, limitM } of limitAgainstSpeed) {
    lines.push(`  ${printRpm(speedRevPerS).padStart(5)} r/min  ${intervalWords(limitM, 'm')}`);
  }
  if (timeSpeedRevPerS !== null) {
    lines.push(`time to delivery against lift, at ${printRpm(timeSpeedRevPerS)} r/min:`);
    for (const { liftM, timeS } of timeAgainstLift) lines.push(`  ${liftM.toFixed(2)} m  ${timeIntervalWords(timeS)}`);
  }
  const machine = machineWords(together.value);
  if (machine !== null) lines.push(machine);
  return lines.join('\n');
}

/** `slipwright series`: what the dry starts of a run's pump say together. */
export function series(runId: string, archive: Archive, speaker: Speaker): ExitCode {
  const evidence = dryEvidence(archive, runId);
  if (evidence === null) throw new WrongUse(`run ${runId} is no dry start: name a dry-lift or a blanked run`);
  speaker.result(evidence, seriesText(evidence));
  return EXIT.done;
}
