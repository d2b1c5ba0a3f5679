import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { z } from 'zod';
import type { RunResult } from '../../analysis/result.ts';
import { type DrawnRun, type KeptDrawing, keptDrawing } from './drawnRun.ts';
import { RUN_FILES } from './runFiles.ts';

/** The caches beside a run. One that cannot be read, or is not the one that is wanted, is null: it is made anew. */

/** Our own writing: its head is looked at, the rest taken as it is. */
const resultHead = z.looseObject({ format: z.literal('slipwright.result/2') });
const cachedResult = z.custom<RunResult>((value) => resultHead.safeParse(value).success);

/** The kept analysis of a run, if it is the one that is wanted. */
export function readKeptResult(folder: string, isWanted: (result: RunResult) => boolean): RunResult | null {
  return readKept(join(folder, RUN_FILES.result), (json) => {
    const result = cachedResult.parse(json);
    return isWanted(result) ? result : null;
  });
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
