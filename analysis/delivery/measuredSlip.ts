import type { HoldState } from '../steady/holdState.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';

/**
 * Slip of a hold against the derived capacity: V_i n − q₁, at the inlet, with all that capacity and hold share; negative where
 * the pump draws in more than V_i n.
 *
 * @param hold - averaged hold [-]
 * @param derivedCapacity - V_i of the fitted law [m³/rev]
 * @returns slip with the sources of all three [m³/s]
 *
 * Source: the difference that ISO 4391 calls derived flow less effective flow; rotary-pump usage calls it slip.
 */
export function measuredSlip(hold: HoldState, derivedCapacity: Uncertain): Uncertain {
  const { speedRevPerS, inletFlowM3PerS } = hold;
  return combine(derivedCapacity.value * speedRevPerS.value - inletFlowM3PerS.value, [
    { input: derivedCapacity, derivative: speedRevPerS.value },
    { input: speedRevPerS, derivative: derivedCapacity.value },
    { input: inletFlowM3PerS, derivative: -1 },
  ]);
}
