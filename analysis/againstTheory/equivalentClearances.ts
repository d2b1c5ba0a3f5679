import { clearanceExplainingSlip, type SlipExplanation } from '../slip/explainSlip.ts';
import type { SlipState } from '../slip/forwardSlip.ts';
import type { GapMap } from '../slip/gapMap.ts';
import { totalsAt } from '../slip/predictSlip.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { type Agreement, agreementOf } from './agreement.ts';

/** What one clearance would have to be to explain the measured slip, all others as on the strip sheet. */
export type EquivalentClearance = {
  readonly clearanceId: string;
  readonly label: string;
  /** By how many per cent the slip grows when the clearance grows by one: up to 3 [1]. */
  readonly weight: number;
  /** Each clearance that would explain it against the sheet's own: none, one or two [m]. */
  readonly against: readonly Agreement[];
  readonly inWords: string;
};

/** A clearance that moves the slip by less than a tenth of its own share explains nothing [1]. */
const LEAST_WEIGHT = 0.1;

/** Over which the weight is taken [1]. */
const STEP_SHARE = 1e-3;

function weightOf(map: GapMap, temperatureK: number, id: string, clearanceM: number): number {
  const here = totalsAt(map, temperatureK, {});
  const wider = totalsAt(map, temperatureK, { [id]: clearanceM * (1 + STEP_SHARE) });
  if (here === null || wider === null || !(here.conductanceM3 > 0)) return 0;
  return (wider.conductanceM3 / here.conductanceM3 - 1) / STEP_SHARE;
}

/**
 * The equivalent clearances: for each gap that matters, the clearance that would explain the measured slip, beside what
 * the strip sheet says.
 *
 * @param map - gap map of the strip sheet [-]
 * @param slipM3PerS - measured, V_i n − q₁, with its sources [m³/s]
 * @param at - oil, temperature, pressure and speed of the measurement [K, Pa, rev/s]
 * @param state - states a value with the sources of run and strip sheet [-]
 * @returns clearances by their weight, heaviest first; those under a tenth are not asked for [m]
 *
 * Source: clearanceExplainingSlip; the weight is ∂ ln κ/∂ ln h, 3 where one gap is all.
 */
export function equivalentClearances(
  map: GapMap,
  slipM3PerS: Uncertain,
  at: SlipState,
  state: (uncertain: Uncertain) => Stated,
): readonly EquivalentClearance[] {
  return map.quantities
    .filter(({ isClearance, value }) => isClearance && value.value > 0)
    .map((quantity) => ({ quantity, weight: weightOf(map, at.temperatureK, quantity.id, quantity.value.value) }))
    .filter(({ weight }) => weight >= LEAST_WEIGHT)
    .sort((a, b) => b.weight - a.weight)
    .map(({ quantity, weight }): EquivalentClearance => {
      const explained: SlipExplanation = clearanceExplainingSlip(map, quantity.id, slipM3PerS, at);
      return {
        clearanceId: quantity.id,
        label: quantity.label,
        weight,
        against: explained.clearancesM.map((clearanceM) => agreementOf(clearanceM, quantity.value, state)),
        inWords: explained.inWords,
      };
    });
}
