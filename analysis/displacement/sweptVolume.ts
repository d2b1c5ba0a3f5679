import { type Outcome, yes } from '../outcome.ts';
import type { PumpGeometry } from '../records/pumpRecord.ts';
import { statedSweptVolume } from './asStated.ts';
import { balancedVaneRingSweptVolume } from './balancedVaneRing.ts';
import { externalGearSweptVolume } from './externalGear.ts';
import type { GeometryRefusal, SweptVolume } from './geometryResult.ts';
import { internalGearSweptVolume } from './internalGear.ts';
import { lobeSweptVolume } from './lobe.ts';
import { plainThreadSweptVolume } from './plainThread.ts';
import { plungerSweptVolume } from './plunger.ts';
import { progressingCavitySweptVolume } from './progressingCavity.ts';
import { threeScrewSweptVolume } from './threeScrew.ts';
import { trochoidSweptVolume } from './trochoid.ts';
import { handTurnedSweptVolume } from './turnedByHand.ts';
import { twinScrewSweptVolume } from './twinScrew.ts';
import { vaneRingSweptVolume } from './vaneRing.ts';

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
    case 'internalGear':
      return internalGearSweptVolume(geometry);
    case 'trochoid':
      return trochoidSweptVolume(geometry);
    case 'lobe':
      return lobeSweptVolume(geometry);
    case 'asStated':
      return yes(statedSweptVolume(geometry));
    case 'vaneRing':
      return vaneRingSweptVolume(geometry);
    case 'balancedVaneRing':
      return balancedVaneRingSweptVolume(geometry);
    case 'twinScrew':
      return twinScrewSweptVolume(geometry);
    case 'threeScrew':
      return threeScrewSweptVolume(geometry);
    case 'progressingCavity':
      return progressingCavitySweptVolume(geometry);
    case 'plunger':
      return plungerSweptVolume(geometry);
    case 'plainThread':
      return plainThreadSweptVolume(geometry);
    case 'turnedByHand':
      return handTurnedSweptVolume(geometry);
  }
}
