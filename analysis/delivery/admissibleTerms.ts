import type { Finding, LawTerm } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { levelsOf } from './levels.ts';

/** The terms that the holds can tell apart, and what became of those that they cannot. */
export type AdmissibleTerms = {
  readonly terms: readonly LawTerm[];
  /** Terms that stand for another one besides, each with what would part them. */
  readonly merged: readonly Finding[];
};

/** The n Δp term takes two speeds, the orifice term three pressures. */
const PRESSURES_FOR_ORIFICE = 3;

/**
 * The terms that the set points of the holds can tell apart. At one speed n Δp and Δp/µ are the same column: the fit
 * gives their sum, and V_i n is what is left at no pressure, so V_i and the flow at that speed stay sound. At two
 * pressures a root cannot be told from a straight line.
 *
 * @param holds - averaged holds, in any order [n holds]
 * @returns terms of the full model, capacity first; notes on merged terms [-]
 */
export function admissibleTerms(holds: readonly HoldState[]): AdmissibleTerms {
  const pressureLevels = levelsOf(holds, (hold) => hold.differentialPressurePa.value).length;
  const speedLevels = levelsOf(holds, (hold) => hold.speedRevPerS.value).length;
  const terms: LawTerm[] = ['derivedCapacityM3PerRev', 'laminarSlipM3'];
  const merged: Finding[] = [];
  if (pressureLevels >= PRESSURES_FOR_ORIFICE) terms.push('orificeSlipM2');
  else {
    merged.push({
      code: 'ORIFICE_NOT_SEPARATED',
      severity: 'warning',
      text: 'With fewer than three pressures slip through orifices cannot be told from laminar slip: it is taken to be laminar, and the capacity is right only as far as that holds. Add holds at a third pressure.',
    });
  }
  if (speedLevels >= 2) terms.push('speedPressureSlipM3PerPa');
  else {
    merged.push({
      code: 'SPEED_NOT_VARIED',
      severity: 'warning',
      text: 'All holds were taken at one speed: slip that grows with speed cannot be told from laminar slip, and the laminar coefficient stands for both. The law is good at this speed and says nothing of another. Add holds at a second speed.',
    });
  }
  return { terms, merged };
}

/** Every way of leaving slip terms out, the capacity always in. */
export function termSubsets(terms: readonly LawTerm[]): readonly (readonly LawTerm[])[] {
  let subsets: LawTerm[][] = [terms.slice(0, 1)];
  for (const term of terms.slice(1)) subsets = subsets.concat(subsets.map((subset) => [...subset, term]));
  return subsets;
}
