import { z } from 'zod';
import { dutyRecord } from './dutyRecord.ts';
import { recordId } from './fields.ts';
import { statedGeometry } from './geometry/asStated.ts';
import { balancedVaneRingGeometry } from './geometry/balancedVaneRing.ts';
import { externalGearGeometry } from './geometry/externalGear.ts';
import { internalGearGeometry } from './geometry/internalGear.ts';
import { lobeGeometry } from './geometry/lobe.ts';
import { plainThreadGeometry } from './geometry/plainThread.ts';
import { plungerGeometry } from './geometry/plunger.ts';
import { progressingCavityGeometry } from './geometry/progressingCavity.ts';
import { threeScrewGeometry } from './geometry/threeScrew.ts';
import { trochoidGeometry } from './geometry/trochoid.ts';
import { turnedByHandGeometry } from './geometry/turnedByHand.ts';
import { twinScrewGeometry } from './geometry/twinScrew.ts';
import { vaneRingGeometry } from './geometry/vaneRing.ts';
import { pumpParticulars } from './pumpParticulars.ts';

export const pumpRecord = z.strictObject({
  format: z.literal('slipwright.pump/1'),
  id: recordId,
  version: z.int().positive(),
  name: z.string().min(1),
  type: z.enum([
    'external gear',
    'internal gear',
    'trochoid rotor set',
    'lobe',
    'single vane ring',
    'balanced vane ring',
    'twin screw',
    'three screw',
    'progressing cavity',
    'plunger',
    'plain thread',
    // Any other, and records written before screws were told apart.
    'screw',
  ]),
  serialNumber: z.string().min(1),
  maker: z.string().min(1),
  owner: z.string().default(''),
  /** Rotation seen on the shaft end. */
  rotation: z.enum(['clockwise', 'anticlockwise']),
  speedRangeRevPerS: z.strictObject({ min: z.number().nonnegative(), max: z.number().positive() }),
  mayRunDry: z.boolean(),
  geometry: z.discriminatedUnion('kind', [
    externalGearGeometry,
    internalGearGeometry,
    trochoidGeometry,
    lobeGeometry,
    vaneRingGeometry,
    balancedVaneRingGeometry,
    twinScrewGeometry,
    threeScrewGeometry,
    progressingCavityGeometry,
    plungerGeometry,
    plainThreadGeometry,
    statedGeometry,
    turnedByHandGeometry,
  ]),
  ...pumpParticulars,
  /** Null: nobody knows what the machine needs; outcomes are then 'measured'. */
  duty: dutyRecord.nullable(),
  remarks: z.string().default(''),
});
export type PumpRecord = z.infer<typeof pumpRecord>;
export type PumpGeometry = PumpRecord['geometry'];
