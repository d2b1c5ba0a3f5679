import { lawRegressors } from '../delivery/slipLaw.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import { combine, exactly, type Uncertain } from '../uncertainty/source.ts';
import { type Beyond, beyondMeasured } from './measuredRange.ts';
import { type LawEvidence, lawAtClearance, outletStep, spokenFlow } from './spokenLaw.ts';
import { spokenOilState } from './spokenOil.ts';

/** What must be held. */
export type HeldDuty = {
  readonly differentialPressurePa: number;
  /** Flow that must be left; zero: the pump just holds the pressure and delivers nothing. */
  readonly atLeastM3PerS: number;
};

export type SlowestSpeed = {
  readonly speedRevPerS: Uncertain;
  /** In what the point lies outside the holds; empty: it does not. */
  readonly beyond: readonly Beyond[];
};

export type SlowestSpeedRefusal = { readonly code: 'NO_SPEED_HOLDS'; readonly text: string };

/**
 * The slowest speed at which the pump still holds a pressure with so much flow left:
 * n = (q₁ + C_l Δp/µ + C_t √(2Δp/ρ))/(V_i − C_np Δp), q₁ the inlet flow that leaves so much at the outlet. With none
 * asked it is where all that the pump takes in slips back.
 *
 * @param evidence - law and oils [-]
 * @param duty - pressure and flow, zero or more [Pa, m³/s]
 * @param oilTemperatureK - of the oil at the pump inlet [K]
 * @param laminarFactor - by which C_l differs at this temperature from that of the run [1]
 * @returns the speed, marked where it lies outside what was measured [rev/s]; or that the slip eats every speed's flow [-]
 * @throws RangeError if pressure or flow is negative or not finite
 *
 * Source: the fitted law solved for n; uncertainty by implicit differentiation, δn = −δq/(∂q/∂n), JCGM 100:2008, 5.1.
 */
export function slowestSpeed(
  evidence: LawEvidence,
  duty: HeldDuty,
  oilTemperatureK: number,
  laminarFactor: Uncertain = exactly(1),
): Outcome<SlowestSpeed, SlowestSpeedRefusal> {
  const { differentialPressurePa, atLeastM3PerS } = duty;
  for (const [name, value] of Object.entries({ differentialPressurePa, atLeastM3PerS })) {
    if (!(value >= 0 && Number.isFinite(value))) throw new RangeError(`${name}: ${value}, expected zero or more`);
  }
  const { coefficients } = lawAtClearance(evidence.law, laminarFactor);
  const state = spokenOilState(evidence.oil, oilTemperatureK);
  const atRest = lawRegressors({
    speedRevPerS: 0,
    differentialPressurePa,
    dynamicViscosityPaS: state.dynamicViscosityPaS.value,
    densityKgPerM3: state.densityKgPerM3.value,
  });
  const perTurnM3 =
    coefficients.derivedCapacityM3PerRev - coefficients.speedPressureSlipM3PerPa * differentialPressurePa;
  if (!(perTurnM3 > 0)) {
    return no({
      code: 'NO_SPEED_HOLDS',
      text: 'At this pressure the slip grows with speed as fast as the capacity does: no speed holds it. Lower the pressure, or look for what opens under it.',
    });
  }
  const { drainCoefficientM3, densityRatio } = outletStep(evidence.outlet, differentialPressurePa);
  const atRestM3PerS =
    (coefficients.laminarSlipM3 + drainCoefficientM3) * atRest.laminarSlipM3 +
    coefficients.orificeSlipM2 * atRest.orificeSlipM2;
  const speedRevPerS = (atLeastM3PerS / densityRatio - atRestM3PerS) / perTurnM3;
  const at = { speedRevPerS, differentialPressurePa, oilTemperatureK };
  const flow = spokenFlow(evidence, at, laminarFactor);
  return yes({
    speedRevPerS: combine(speedRevPerS, [{ input: flow, derivative: -1 / (perTurnM3 * densityRatio) }]),
    beyond: beyondMeasured(evidence, at),
  });
}
