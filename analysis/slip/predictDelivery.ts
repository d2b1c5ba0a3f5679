import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { PredictedSlip } from './predictSlip.ts';

/** What a pump with this slip should deliver. */
export type PredictedDelivery = {
  /** V_g + drag, to compare with the V_i that a run measures [m³/rev]. */
  readonly derivedCapacityM3PerRev: Uncertain;
  /** V_i n − slip [m³/s]. */
  readonly flowM3PerS: Uncertain;
  /** Flow over V_i n [1]. */
  readonly volumetricEfficiency: Uncertain;
};

/**
 * Delivery to expect: V_i = V_g + drag, q = V_i n − slip, η_v = q/(V_i n).
 *
 * @param sweptVolumeM3PerRev - V_g from the geometry, with its sources [m³/rev]
 * @param predicted - slip and drag of the gap map [m³/s, m³/rev]
 * @param speedRevPerS - n, > 0 [rev/s]
 * @returns capacity, flow and efficiency with the sources of both [m³/rev, m³/s, 1]
 * @throws RangeError if the speed or V_i is not above zero
 *
 * Source: ISO 4391:1984 for the terms; V_i = V_g + drag derived here.
 */
export function predictDelivery(
  sweptVolumeM3PerRev: Uncertain,
  predicted: Pick<PredictedSlip, 'slipM3PerS' | 'dragM3PerRev'>,
  speedRevPerS: number,
): PredictedDelivery {
  if (!(speedRevPerS > 0 && Number.isFinite(speedRevPerS))) {
    throw new RangeError(`speedRevPerS: ${speedRevPerS}, expected a number above zero`);
  }
  const { slipM3PerS, dragM3PerRev } = predicted;
  const capacity = combine(sweptVolumeM3PerRev.value + dragM3PerRev.value, [
    { input: sweptVolumeM3PerRev, derivative: 1 },
    { input: dragM3PerRev, derivative: 1 },
  ]);
  if (!(capacity.value > 0)) throw new RangeError(`V_i: ${capacity.value} m³/rev, expected a number above zero`);
  const theoretical = capacity.value * speedRevPerS;
  return {
    derivedCapacityM3PerRev: capacity,
    flowM3PerS: combine(theoretical - slipM3PerS.value, [
      { input: capacity, derivative: speedRevPerS },
      { input: slipM3PerS, derivative: -1 },
    ]),
    volumetricEfficiency: combine(1 - slipM3PerS.value / theoretical, [
      { input: capacity, derivative: slipM3PerS.value / (theoretical * capacity.value) },
      { input: slipM3PerS, derivative: -1 / theoretical },
    ]),
  };
}
