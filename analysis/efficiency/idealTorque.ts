import { combine, type Uncertain } from '../uncertainty/source.ts';

/**
 * Torque that a pump without losses takes: T = V Δp/(2π).
 *
 * @param capacity - derived capacity or swept volume [m³/rev]
 * @param differentialPressure - delivery less suction [Pa]
 * @returns torque [N m]
 *
 * Source: definition, work V Δp in a turn of 2π.
 *
 * @example idealTorque(exactly(20e-6), exactly(100e5)).value // 31.830988618379067
 */
export function idealTorque(capacity: Uncertain, differentialPressure: Uncertain): Uncertain {
  const perTurn = 2 * Math.PI;
  return combine((capacity.value * differentialPressure.value) / perTurn, [
    { input: capacity, derivative: differentialPressure.value / perTurn },
    { input: differentialPressure, derivative: capacity.value / perTurn },
  ]);
}
