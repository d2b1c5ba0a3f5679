import type { PracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';

/** Steps the bench until something holds; throws if it does not within so much bench time. */
export function stepUntil(bench: PracticeBench, isReached: () => boolean, limitS: number): void {
  const endS = bench.state().elapsedS + limitS;
  while (!isReached() && bench.state().elapsedS < endS) bench.step(0.1);
  if (!isReached()) throw new Error(`not reached within ${limitS} s of bench time`);
}
