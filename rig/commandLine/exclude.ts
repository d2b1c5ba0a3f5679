import type { RunResult } from '../../analysis/result.ts';
import type { Archive } from '../archive/openArchive.ts';
import { readStoredResult } from '../session/analyseStoredRun.ts';
import { excludeHold } from '../session/excludeHold.ts';
import { EXIT, type ExitCode } from './exitCodes.ts';
import { resultText } from './resultText.ts';
import type { Speaker } from './speaker.ts';
import { WrongUse } from './wrongUse.ts';

export type ExcludeOptions = {
  /** A stretch of the run, or a hold of its result. */
  readonly from?: number;
  readonly to?: number;
  readonly hold?: number;
  readonly reason: string;
  readonly person: string;
  /** Back into the fit. */
  readonly back: boolean;
};

type Stretch = { readonly fromS: number; readonly toS: number };

function spanOfHold(result: RunResult, number: number): Stretch {
  const holds = result.delivery?.holds ?? [];
  const hold = holds.find((candidate) => candidate.number === number);
  if (hold !== undefined) return { fromS: hold.startS, toS: hold.endS };
  throw new WrongUse(
    holds.length === 0
      ? `run ${result.runId} shows no holds: name the stretch by --from and --to`
      : `run ${result.runId} has no hold ${number}: its holds are 1 to ${holds.length}`,
  );
}

function stretchOf(options: ExcludeOptions, archive: Archive, runId: string): Stretch {
  const { from, to, hold } = options;
  if (hold !== undefined && from === undefined && to === undefined) {
    return spanOfHold(readStoredResult(archive, runId).result, hold);
  }
  if (hold === undefined && from !== undefined && to !== undefined) {
    if (from < to) return { fromS: from, toS: to };
    throw new WrongUse(`--from ${from} lies not before --to ${to}`);
  }
  throw new WrongUse('exclude needs --hold, or --from and --to');
}

/** `slipwright exclude`: takes a hold, or a stretch, out of the fit or back in, and says the new result. */
export function exclude(runId: string, options: ExcludeOptions, archive: Archive, speaker: Speaker): ExitCode {
  const { person, reason, back } = options;
  const stretch = stretchOf(options, archive, runId);
  const { result } = excludeHold(archive, runId, { person, reason, isExcluded: !back, ...stretch });
  speaker.result(result, resultText(result));
  return EXIT.done;
}
