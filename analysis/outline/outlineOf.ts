import { no, type Outcome, yes } from '../outcome.ts';
import type { PumpGeometry } from '../records/pumpRecord.ts';
import { balancedVaneRingOutline } from './balancedVaneRing.ts';
import { externalGearOutline } from './externalGear.ts';
import { internalGearOutline } from './internalGear.ts';
import { lobeOutline } from './lobe.ts';
import type { OutlinePart } from './outlinePart.ts';
import { plungerOutline } from './plunger.ts';
import { progressingCavityOutline } from './progressingCavity.ts';
import { threeScrewOutline } from './threeScrew.ts';
import { trochoidOutline } from './trochoid.ts';
import { twinScrewOutline } from './twinScrew.ts';
import { vaneRingOutline } from './vaneRing.ts';

/** Why there is nothing to draw. */
export type NoOutline = { readonly code: string; readonly text: string };

/**
 * The pumping elements of any pump record, to scale, in the plane square to the shafts.
 *
 * @param geometry - geometry of a pump record [-]
 * @param shaftAngleRad - angle of the driven shaft, counter-clockwise [rad]
 * @returns parts in the order in which they are drawn [m]; or why the record has no shape to draw [-]
 */
export function outlineOf(geometry: PumpGeometry, shaftAngleRad: number): Outcome<readonly OutlinePart[], NoOutline> {
  switch (geometry.kind) {
    case 'externalGear':
      return externalGearOutline(geometry, shaftAngleRad);
    case 'internalGear':
      return internalGearOutline(geometry, shaftAngleRad);
    case 'trochoid':
      return trochoidOutline(geometry, shaftAngleRad);
    case 'lobe':
      return lobeOutline(geometry, shaftAngleRad);
    case 'vaneRing':
      return yes(vaneRingOutline(geometry, shaftAngleRad));
    case 'balancedVaneRing':
      return yes(balancedVaneRingOutline(geometry, shaftAngleRad));
    case 'twinScrew':
      return yes(twinScrewOutline(geometry, shaftAngleRad));
    case 'threeScrew':
      return yes(threeScrewOutline(geometry, shaftAngleRad));
    case 'progressingCavity':
      return yes(progressingCavityOutline(geometry, shaftAngleRad));
    case 'plunger':
      return yes(plungerOutline(geometry, shaftAngleRad));
    case 'plainThread':
    case 'asStated':
    case 'turnedByHand':
      return no({ code: 'NO_SHAPE', text: 'The record holds no shape to draw.' });
  }
}
