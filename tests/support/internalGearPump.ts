import type { InternalGearGeometry } from '../../analysis/records/geometry/internalGear.ts';
import { type PumpRecord, pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { samplePump } from './samples.ts';

function length(mm: number) {
  return { value: mm / 1000, standardUncertainty: 1e-5 };
}

/** Thirteen teeth in a ring of nineteen, with grooves. */
export const INTERNAL_GEARS: InternalGearGeometry = {
  kind: 'internalGear',
  toothCount: { pinion: 13, ring: 19 },
  moduleM: 0.003,
  pressureAngleRad: Math.PI / 9,
  pinionTipDiameterM: length(45),
  ringTipDiameterM: length(54),
  runningCentreDistanceM: length(9),
  faceWidthM: length(20),
  hasReliefGrooves: true,
  backlashM: length(0.1),
};

/** An invented internal gear pump in the place of the sample feed pump, with that one's duty. */
export function internalGearPump(): PumpRecord {
  return pumpRecord.parse({
    ...samplePump('dredger-feed-pump'),
    id: 'invented-internal-gear-pump',
    name: 'Invented internal gear pump',
    type: 'internal gear',
    serialNumber: 'invented-3',
    geometry: INTERNAL_GEARS,
  });
}
