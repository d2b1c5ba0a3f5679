import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { OutcomeWord, RunResult } from '../../analysis/result.ts';
import { type DrawnRun, type KeptDrawing, keptDrawing } from './drawnRun.ts';
import { outcomeWord } from './indexEntries.ts';
import { readMembers } from './jsonMembers.ts';
import { RUN_FILES } from './runFiles.ts';

/** The caches beside a run. One that cannot be read, or is not the one that is wanted, is null: it is made anew. */

/** Our own writing: its head is looked at, the rest taken as it is. */
const RESULT_FORMAT = 'slipwright.result/2';
const resultHead = z.looseObject({ format: z.literal(RESULT_FORMAT) });
const cachedResult = z.custom<RunResult>((value) => resultHead.safeParse(value).success);

/** The kept analysis of a run, if it is the one that is wanted. */
export function readKeptResult(folder: string, isWanted: (result: RunResult) => boolean): RunResult | null {
  return readKept(join(folder, RUN_FILES.result), (json) => {
    const result = cachedResult.parse(json);
    return isWanted(result) ? result : null;
  });
}

/** What the kept analysis of a run says of it in a word, whatever version of the analysis made it; null: none is kept. */
export function readKeptOutcome(folder: string, runId: string): OutcomeWord | null {
  const path = join(folder, RUN_FILES.result);
  if (!existsSync(path)) return null;
  try {
    const kept = readMembers(z.object({ format: z.string(), runId: z.string(), outcome: outcomeWord }), path);
    return kept.runId === runId && kept.format === RESULT_FORMAT ? kept.outcome : null;
  } catch {
    return null;
  }
}

/** What is kept to be drawn of a run, if it is the one that is wanted. */
export function readKeptDrawing(folder: string, isWanted: (kept: KeptDrawing) => boolean): DrawnRun | null {
  return readKept(join(folder, RUN_FILES.drawn), (json) => {
    const kept = keptDrawing.parse(json);
    return isWanted(kept) ? kept.drawn : null;
  });
}

function readKept<Value>(path: string, of: (json: unknown) => Value | null): Value | null {
  if (!existsSync(path)) return null;
  try {
    return of(JSON.parse(readFileSync(path, 'utf8')));
  } catch {
    return null;
  }
}
