import { type Coefficients, flowAtUncertainPoint } from '../delivery/slipLaw.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';

/**
 * By how much a hold's flow per turn departs from the law, as a share of the derived capacity: d = (q_1 − f) / (V_i n),
 * f the law's flow at the hold's own speed, pressure difference and oil. The law's coefficients count as exact: two holds
 * of one set point share whatever they err.
 *
 * @param hold - averaged hold [-]
 * @param coefficients - of the law, V_i above zero [m³/rev, m³, m², m³/Pa]
 * @returns departure, positive where more flows than the law says [1]
 *
 * Source: derived here from the slip law; JCGM 100:2008, 5.1.2 (sensitivities).
 */
function lawDeparture(hold: HoldState, coefficients: Coefficients): Uncertain {
  const { inletFlowM3PerS: flow, speedRevPerS: speed } = hold;
  const law = flowAtUncertainPoint(coefficients, hold);
  const theoreticalM3PerS = coefficients.derivedCapacityM3PerRev * speed.value;
  const departure = (flow.value - law.value) / theoreticalM3PerS;
  return combine(departure, [
    { input: flow, derivative: 1 / theoreticalM3PerS },
    { input: law, derivative: -1 / theoreticalM3PerS },
    { input: speed, derivative: -departure / speed.value },
  ]);
}

/**
 * How much more a hold delivers than another, once speed, pressure and oil are made alike by the law. Errors that both
 * share, the flow meter's gain among them, cancel.
 *
 * @param from - the hold that is compared with [-]
 * @param to - the hold that is compared [-]
 * @param coefficients - of the law [m³/rev, m³, m², m³/Pa]
 * @returns d(to) − d(from), a share of the derived capacity [1]
 *
 * Source: derived here; JCGM 100:2008, 5.2.
 */
export function lawShift(from: HoldState, to: HoldState, coefficients: Coefficients): Uncertain {
  const before = lawDeparture(from, coefficients);
  const after = lawDeparture(to, coefficients);
  return combine(after.value - before.value, [
    { input: after, derivative: 1 },
    { input: before, derivative: -1 },
  ]);
}
