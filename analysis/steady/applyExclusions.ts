import type { HoldExclusion } from '../records/runRecord.ts';
import type { HoldState } from './holdState.ts';

function isMostlyCovered(hold: HoldState, { fromS, toS }: HoldExclusion): boolean {
  const coveredS = Math.min(hold.endS, toS) - Math.max(hold.startS, fromS);
  return coveredS > (hold.endS - hold.startS) / 2;
}

/**
 * Takes out of the fit what a person took out, and back in what was taken back. A line concerns the holds of which it covers
 * more than half; of several the last counts. What was left out for another cause stays so when a person's line lets it in.
 *
 * @param holds - all holds of the run [n holds]
 * @param exclusions - the person's lines, in the order in which they were written [-]
 * @returns the same holds, `leftOut` set or freed [n holds]
 */
export function applyExclusions(
  holds: readonly HoldState[],
  exclusions: readonly HoldExclusion[],
): readonly HoldState[] {
  return holds.map((hold) => {
    const last = exclusions.findLast((exclusion) => isMostlyCovered(hold, exclusion));
    if (last === undefined) return hold;
    if (last.isExcluded) return { ...hold, leftOut: { cause: 'person', reason: last.reason } };
    return hold.leftOut?.cause === 'person' ? { ...hold, leftOut: null } : hold;
  });
}
