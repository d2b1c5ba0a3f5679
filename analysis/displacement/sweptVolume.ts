import { type Outcome, yes } from '../outcome.ts';
import type { PumpGeometry } from '../records/pumpRecord.ts';
import { statedSweptVolume } from './asStated.ts';
import { externalGearSweptVolume } from './externalGear.ts';
import type { GeometryRefusal, SweptVolume } from './geometryResult.ts';

/**
 * Swept volume of any pump record.
 *
 * @param geometry - geometry of a pump record [-]
 * @returns V_g with its sources [m³/rev], or why it cannot be computed [-]
 */
export function sweptVolumeOf(geometry: PumpGeometry): Outcome<SweptVolume, GeometryRefusal> {
  switch (geometry.kind) {
    case 'externalGear':
      return externalGearSweptVolume(geometry);
    case 'asStated':
      return yes(statedSweptVolume(geometry));
  }
}
