import type { TwinScrewGeometry } from '../records/geometry/twinScrew.ts';
import { arcPoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved, type Outline, rotated } from './polygon.ts';

/** Cross-section of a screw with rectangular thread, the middle of a land at angle 0. */
function screwOutline(
  { startCount, outerDiameterM, rootDiameterM }: TwinScrewGeometry,
  pointsPerTurn: number,
): Outline {
  const halfLandRad = Math.PI / (2 * startCount);
  return Array.from({ length: startCount }, (_, start) => {
    const landRad = 4 * halfLandRad * start;
    return [
      ...arcPoints(outerDiameterM.value / 2, landRad - halfLandRad, landRad + halfLandRad, pointsPerTurn),
      ...arcPoints(rootDiameterM.value / 2, landRad + halfLandRad, landRad + 3 * halfLandRad, pointsPerTurn),
    ];
  }).flat();
}

/**
 * Cross-section of a twin screw pump to scale: the driver's axis at the origin, the driven screw's to the right, the
 * driver turning counter-clockwise. Rectangular threads stand in each other, as twinScrewSweptVolume says.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - of a land of the driver, from the line of the axes; a section further along the screws shows
 *   another shaft angle, 2π a lead [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns housing, driver, driven screw [m]
 */
export function twinScrewOutline(
  geometry: TwinScrewGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const centreDistanceM = geometry.runningCentreDistanceM.value;
  const boreRadiusM = geometry.outerDiameterM.value / 2;
  const cuspRad = Math.acos(centreDistanceM / (2 * boreRadiusM));
  const left = arcPoints(boreRadiusM, cuspRad, 2 * Math.PI - cuspRad, pointsPerTurn);
  const right = arcPoints(boreRadiusM, cuspRad - Math.PI, Math.PI - cuspRad, pointsPerTurn);
  const screw = screwOutline(geometry, pointsPerTurn);
  // A groove of the driven screw faces the driver where a land of the driver faces it.
  const facingRad = Math.PI + Math.PI / geometry.startCount;
  return [
    { name: 'housing', encloses: 'bore', outline: [...left, ...moved(right, centreDistanceM, 0)] },
    { name: 'driver', encloses: 'metal', outline: rotated(screw, shaftAngleRad) },
    {
      name: 'driven screw',
      encloses: 'metal',
      outline: moved(rotated(screw, facingRad - shaftAngleRad), centreDistanceM, 0),
    },
  ];
}
