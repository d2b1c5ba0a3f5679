import type { Archive } from '../archive/openArchive.ts';
import { readStoredResult } from '../session/analyseStoredRun.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';

/** `slipwright show`: what a sealed run says, as it was analysed. The journal is not read again: `analyse` and `certify` do that. */
export function show(runId: string, archive: Archive, speaker: Speaker): ExitCode {
  const { result } = readStoredResult(archive, runId);
  speaker.result(result, resultText(result));
  return EXIT.done;
}
