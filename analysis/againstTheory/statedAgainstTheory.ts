import type { SlipFit } from '../delivery/fitSlip.ts';
import { measuredSlip } from '../delivery/measuredSlip.ts';
import { gapMapOfRun } from '../efficiency/lawSpeaker.ts';
import { mergeSources } from '../efficiency/mergeSources.ts';
import { refusalOf } from '../outcome.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { AgainstTheory } from '../result.ts';
import type { GapMap } from '../slip/gapMap.ts';
import { gapMapOf } from '../slip/gapMapOf.ts';
import { type PredictedSlip, predictSlip } from '../slip/predictSlip.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { capacityAgainstTheory } from './capacityAgainstTheory.ts';
import { equivalentClearances } from './equivalentClearances.ts';
import { slipAgainstTheory } from './slipAgainstTheory.ts';

const NO_SHEET = {
  code: 'NO_STRIP_SHEET',
  text: 'No strip sheet of this pump was in force at the run: no slip can be predicted. File one, with clearances and backlash.',
};

function stateAt(run: RunRecord, hold: HoldState) {
  return {
    oil: run.oil,
    temperatureK: hold.oilTemperatureK.value,
    differentialPressurePa: Math.max(0, hold.differentialPressurePa.value),
    speedRevPerS: hold.speedRevPerS.value,
  };
}

function slipPart(
  run: RunRecord,
  map: GapMap | null,
  holds: readonly HoldState[],
  fit: SlipFit,
  state: (value: Uncertain) => Stated,
): AgainstTheory['slip'] {
  if (run.stripSheet === null) return refusalOf(NO_SHEET);
  if (map === null) {
    const refused = gapMapOf(run.stripSheet, run.pump.materials);
    return refusalOf(refused.ok ? NO_SHEET : refused.reason);
  }
  const slip = slipAgainstTheory(holds, fit, map, run.oil, state);
  return slip.ok ? slip : refusalOf(slip.reason);
}

/**
 * A run against its theory: capacity against geometry and predicted drag, slip against the strip sheet hold by hold, and
 * what each clearance alone would have to be, at the hold of the largest pressure difference.
 *
 * @param run - run record with pump, oil and strip sheet [-]
 * @param holds - in the fit [n holds, one or more]
 * @param fit - fitted law [-]
 * @param sweptVolume - V_g [m³/rev]
 * @param sources - every source of the run and its fit [-]
 * @returns the comparisons [SI]; what the strip sheet does not allow says why
 * @throws RangeError without holds
 */
export function statedAgainstTheory(
  run: RunRecord,
  holds: readonly HoldState[],
  fit: SlipFit,
  sweptVolume: Uncertain,
  sources: readonly Source[],
): AgainstTheory {
  const map = gapMapOfRun(run);
  const table = mergeSources(sources, map?.quantities.flatMap((quantity) => quantity.sources) ?? []);
  const state = (value: Uncertain): Stated => stateUncertainty(value, table);
  const [hardest] = [...holds].sort((a, b) => b.differentialPressurePa.value - a.differentialPressurePa.value);
  if (hardest === undefined) throw new RangeError('holds: none');
  const capacity = fit.uncertain.derivedCapacityM3PerRev;
  const predicted = map === null ? null : predictSlip(map, stateAt(run, hardest));
  const drag: PredictedSlip | null = predicted?.ok ? predicted.value : null;
  const canExplain = map !== null && drag !== null && hardest.differentialPressurePa.value > 0;
  return {
    capacity: capacityAgainstTheory(capacity, sweptVolume, drag, state),
    slip: slipPart(run, map, holds, fit, state),
    equivalentClearances: canExplain
      ? {
          holdNumber: hardest.number,
          clearances: equivalentClearances(map, measuredSlip(hardest, capacity), stateAt(run, hardest), state),
        }
      : null,
  };
}
