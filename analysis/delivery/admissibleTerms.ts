import type { LawTerm } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';

/** Set points closer than this are one level [1]. */
const LEVEL_SHARE = 0.05;

function levelCount(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const widest = Math.max(...sorted.map(Math.abs));
  return sorted.filter((value, index) => index === 0 || value - (sorted[index - 1] ?? value) > LEVEL_SHARE * widest)
    .length;
}

/**
 * The terms that the holds can tell apart. The orifice term needs three pressures, the n Δp term two speeds, and each
 * term a hold beyond the number of terms.
 */
export function admissibleTerms(holds: readonly HoldState[]): readonly LawTerm[] {
  const pressureLevels = levelCount(holds.map((hold) => hold.differentialPressurePa.value));
  const speedLevels = levelCount(holds.map((hold) => hold.speedRevPerS.value));
  const terms: LawTerm[] = ['derivedCapacityM3PerRev', 'laminarSlipM3'];
  if (pressureLevels >= 3 && holds.length >= 5) terms.push('orificeSlipM2');
  if (speedLevels >= 2 && holds.length >= terms.length + 3) terms.push('speedPressureSlipM3PerPa');
  return terms;
}

/** Every way of leaving slip terms out, the capacity always in. */
export function termSubsets(terms: readonly LawTerm[]): readonly (readonly LawTerm[])[] {
  let subsets: LawTerm[][] = [terms.slice(0, 1)];
  for (const term of terms.slice(1)) subsets = subsets.concat(subsets.map((subset) => [...subset, term]));
  return subsets;
}
