import type { DryTogether } from '../resultSchema/dryTogetherSchema.ts';
import { fittedTogether, type ReadDryRun } from './fittedTogether.ts';
import { deliveryToFit, runsToFit } from './series/runsToFit.ts';

/**
 * Of runs of one pump, every pair of a lift and a blanked run that belong together, fitted: of several lifts with the same
 * blanked run the newest.
 *
 * @param runs - of one pump, of any kind, with readings [-]
 * @returns what each pair says together, newest first; a pair that no fit agrees on is left out [-]
 */
export function fittedPairs(runs: readonly ReadDryRun[]): readonly DryTogether[] {
  const lifts = runs
    .filter(({ run, result }) => run.kind === 'dryLift' && result.dryLift?.estimate.ok === true)
    .sort((a, b) => Date.parse(b.run.startedAtUtc) - Date.parse(a.run.startedAtUtc));
  const paired = new Set<string>();
  return lifts.flatMap((lift) => {
    const pair = runsToFit(lift, runs);
    const blanked = pair.find(({ run }) => run.kind === 'blanked');
    if (blanked === undefined || paired.has(blanked.run.id)) return [];
    paired.add(blanked.run.id);
    const fitted = fittedTogether(pair, deliveryToFit(lift, runs));
    return fitted.ok ? [fitted.value] : [];
  });
}
