import { combine, type Uncertain } from '../uncertainty/source.ts';

/**
 * Volumetric efficiency, delivered flow over capacity × speed: η_V = q/(V n). With the derived capacity V_i it is that
 * of ISO 4391; with the swept volume V_g of the geometry it shows besides what the flow meter reads wrong, which
 * cancels in the first.
 *
 * @param flow - delivered flow at the outlet [m³/s]
 * @param capacity - derived capacity or swept volume, > 0 [m³/rev]
 * @param speed - shaft speed, > 0 [rev/s]
 * @returns η_V, never clipped: above 1 means a wrong capacity or an instrument fault [1]
 * @throws RangeError if capacity or speed is not a finite number above zero
 *
 * Source: ISO 4391:1984 (definition); uncertainty JCGM 100:2008, 5.1.
 *
 * @example volumetricEfficiency(exactly(3e-4), exactly(16e-6), exactly(20)).value // 0.9375
 */
export function volumetricEfficiency(flow: Uncertain, capacity: Uncertain, speed: Uncertain): Uncertain {
  for (const [name, { value }] of [
    ['capacity', capacity],
    ['speed', speed],
  ] as const) {
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name}: ${value} is not a number above zero`);
  }
  const theoreticalM3PerS = capacity.value * speed.value;
  const efficiency = flow.value / theoreticalM3PerS;
  return combine(efficiency, [
    { input: flow, derivative: 1 / theoreticalM3PerS },
    { input: capacity, derivative: -efficiency / capacity.value },
    { input: speed, derivative: -efficiency / speed.value },
  ]);
}
