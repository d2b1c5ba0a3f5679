import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import { accepted } from './accepted.ts';

/** V_g of a record whose geometry is sound [m³/rev]. */
export function sweptVolumeM3PerRevOf(pump: PumpRecord): number {
  return accepted(sweptVolumeOf(pump.geometry)).sweptVolume.value;
}
