import { no } from '../outcome.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftResult, Priming } from '../result.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../units.ts';
import type { DryLiftAnalysis } from './analyseDryLift.ts';
import type { FoundPriming } from './findPriming.ts';
import { statedEstimate } from './statedEstimate.ts';
import type { SuctionHistory } from './suctionHistory.ts';

function statedPriming(found: FoundPriming, suction: SuctionHistory | null, state: (of: Uncertain) => Stated): Priming {
  const { arrival, motorStartS } = found;
  if (!arrival.primed) return { primed: false, motorStartS, watchedForS: arrival.watchedForS };
  return {
    primed: true,
    primingTimeS: state(arrival.primingTimeS),
    motorStartS,
    oilAtInletS: suction?.oilAtInletS ?? null,
    sustainedDeliveryS: arrival.sustainedDeliveryS,
  };
}

/** The dry start in numbers that can be printed: what is proven, and apart from it what is estimated. */
export function statedDryLift(
  { found, estimate, speedRevPerS, suction, oilDensityKgPerM3 }: DryLiftAnalysis,
  run: RunRecord,
  state: (uncertain: Uncertain) => Stated,
): DryLiftResult {
  const { barometerPa, staticLiftM, wetness } = run.setUp;
  return {
    priming: found.ok
      ? { ok: true, value: statedPriming(found.value, suction, state) }
      : no({ code: found.reason.code, text: found.reason.text }),
    estimate: estimate.ok ? { ok: true, value: statedEstimate(estimate.value, state) } : no(estimate.reason.reason),
    speedRevPerS,
    staticLiftM: staticLiftM.value,
    wetness,
    barometerPa: barometerPa.value,
    oilDensityKgPerM3,
    lowestSuctionPressurePa: suction === null ? null : state(suction.lowestPa),
    columnPressurePa: barometerPa.value - oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * staticLiftM.value,
  };
}
