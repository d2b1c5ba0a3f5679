import type { Archive } from '../archive/openArchive.ts';
import { analyseStoredRun } from '../session/analyseStoredRun.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';

/** `slipwright analyse`: does the analysis of a sealed run anew. Exit 3 where the data do not allow one, with the reasons. */
export function analyse(runId: string, archive: Archive, speaker: Speaker): ExitCode {
  const { result } = analyseStoredRun(archive, runId);
  speaker.result(result, resultText(result));
  const obstacles = result.findings.filter(({ severity }) => severity === 'unfit');
  for (const { code, text } of obstacles) speaker.say(`${code}: ${text}`);
  return obstacles.length === 0 ? EXIT.done : EXIT.dataSayNo;
}
