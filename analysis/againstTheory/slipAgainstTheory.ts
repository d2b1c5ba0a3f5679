import type { SlipFit } from '../delivery/fitSlip.ts';
import { measuredSlip } from '../delivery/measuredSlip.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { forwardSlip, type SlipState } from '../slip/forwardSlip.ts';
import type { GapMap } from '../slip/gapMap.ts';
import { predictSlip } from '../slip/predictSlip.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { StripRefusal } from '../strip/stripRefusal.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { type Agreement, agreementOf } from './agreement.ts';

/** Measured against predicted slip of one hold [m³/s]. */
type HoldSlip = Agreement & {
  readonly holdNumber: number;
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
};

export type SlipAgainstTheory = {
  /** In the order of the holds. */
  readonly holds: readonly HoldSlip[];
  /** Holds without a pressure rise: nothing is predicted to slip there. */
  readonly withoutPressure: readonly number[];
};

/** Over which predicted slip is differentiated by temperature [K]. */
const STEP_K = 0.1;

/** Predicted slip at a hold, with what the hold's own pressure and temperature are uncertain by [m³/s]. */
function predictedAt(map: GapMap, oil: OilRecord, hold: HoldState): Outcome<Uncertain, StripRefusal> {
  const state: SlipState = {
    oil,
    temperatureK: hold.oilTemperatureK.value,
    differentialPressurePa: hold.differentialPressurePa.value,
    speedRevPerS: hold.speedRevPerS.value,
  };
  const predicted = predictSlip(map, state);
  if (!predicted.ok) return predicted;
  const cooler = forwardSlip(map, { ...state, temperatureK: state.temperatureK - STEP_K });
  if (!cooler.ok) return cooler;
  const hotter = forwardSlip(map, { ...state, temperatureK: state.temperatureK + STEP_K });
  if (!hotter.ok) return hotter;
  const { slipM3PerS } = predicted.value;
  return yes(
    combine(slipM3PerS.value, [
      { input: slipM3PerS, derivative: 1 },
      { input: hold.differentialPressurePa, derivative: slipM3PerS.value / state.differentialPressurePa },
      {
        input: hold.oilTemperatureK,
        derivative: (hotter.value.slipM3PerS - cooler.value.slipM3PerS) / (2 * STEP_K),
      },
    ]),
  );
}

/**
 * Slip measured against slip predicted from the strip sheet, hold by hold.
 *
 * @param holds - averaged holds, those left out of the fit too [n holds]
 * @param fit - fitted law, for V_i [-]
 * @param map - gap map of the strip sheet [-]
 * @param oil - of the run [-]
 * @param state - states a value with the sources of run and strip sheet [-]
 * @returns one entry a hold under pressure [m³/s]; refused where parts bind at a hold's temperature [-]
 *
 * Source: gap laws as predictSlip; agreement as agreementOf.
 */
export function slipAgainstTheory(
  holds: readonly HoldState[],
  fit: Pick<SlipFit, 'uncertain'>,
  map: GapMap,
  oil: OilRecord,
  state: (uncertain: Uncertain) => Stated,
): Outcome<SlipAgainstTheory, StripRefusal> {
  const found: HoldSlip[] = [];
  const withoutPressure: number[] = [];
  for (const hold of holds) {
    if (!(hold.differentialPressurePa.value > 0)) {
      withoutPressure.push(hold.number);
      continue;
    }
    const predicted = predictedAt(map, oil, hold);
    if (!predicted.ok) return no(predicted.reason);
    const measured = measuredSlip(hold, fit.uncertain.derivedCapacityM3PerRev);
    found.push({
      holdNumber: hold.number,
      speedRevPerS: hold.speedRevPerS.value,
      differentialPressurePa: hold.differentialPressurePa.value,
      ...agreementOf(measured, predicted.value, state),
    });
  }
  return yes({ holds: found, withoutPressure });
}
