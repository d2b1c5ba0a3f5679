import { type Outcome, yes } from '../outcome.ts';
import type { PumpGeometry } from '../records/pumpRecord.ts';
import { externalGearSweptVolume } from './externalGear.ts';
import type { GeometryRefusal, SweptVolume } from './geometryResult.ts';

/**
 * Swept volume of any pump record.
 *
 * @param geometry - geometry of a pump record [-]
 * @returns V_g with its sources [m³/rev], or why it cannot be computed [-]
 */
export function sweptVolumeOf(geometry: PumpGeometry): Outcome<SweptVolume, GeometryRefusal> {
  if (geometry.kind === 'externalGear') return externalGearSweptVolume(geometry);
  const { value, standardUncertainty } = geometry.sweptVolumeM3PerRev;
  return yes({
    sweptVolume: { value, sensitivities: { 'geometry.stated': 1 } },
    sources: [
      {
        id: 'geometry.stated',
        label: `swept volume as stated by ${geometry.statedBy}`,
        kind: 'calibration',
        standardUncertainty,
        degreesOfFreedom: null,
        shape: 'normal',
        pooledAs: null,
      },
    ],
    flowRipple: null,
    basis: `as stated by ${geometry.statedBy}`,
  });
}
