import { compareRuns } from '../../analysis/againstTheory/compareRuns.ts';
import type { Archive } from '../archive/openArchive.ts';
import { analyseStoredRun } from '../session/analyseStoredRun.ts';
import { earlierRuns } from '../session/earlierRuns.ts';
import { comparisonText } from './comparisonText.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';

export type AnalyseOptions = { readonly monteCarlo?: number; readonly seed: number };

/** `slipwright analyse`: does the analysis of a sealed run anew. Exit 3 where the data do not allow one, with the reasons. */
export function analyse(runId: string, options: AnalyseOptions, archive: Archive, speaker: Speaker): ExitCode {
  const { monteCarlo, seed } = options;
  const trials = monteCarlo === undefined ? null : { trials: Math.round(monteCarlo), seed: Math.round(seed) };
  const { sealed, result } = analyseStoredRun(archive, runId, trials);
  const comparison = compareRuns({ run: sealed.run, result }, earlierRuns(archive, sealed.run));
  speaker.result(result, [resultText(result), ...comparisonText(comparison)].join('\n'));
  const obstacles = result.findings.filter(({ severity }) => severity === 'unfit');
  for (const { code, text } of obstacles) speaker.say(`${code}: ${text}`);
  return obstacles.length === 0 ? EXIT.done : EXIT.dataSayNo;
}
