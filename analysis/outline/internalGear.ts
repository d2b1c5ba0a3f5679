import type { GearMesh } from '../displacement/gearMesh.ts';
import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { internalGearMesh } from '../displacement/internalGear.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { InternalGearGeometry } from '../records/geometry/internalGear.ts';
import { arcPoints } from './arcPoints.ts';
import { FLANKS_PER_TURN } from './externalGear.ts';
import { gearOutlines } from './gearOutlines.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved, type Outline } from './polygon.ts';

/** How much of the angle between the tip circles a crescent fills; its blunt ends are drawn, not measured. */
const CRESCENT_SHARE = 0.85;

/** Between both tip circles, on the side away from the mesh, its ends cut along the radii of the pinion. */
function crescentOutline(mesh: GearMesh, pointsPerTurn: number): Outline {
  const { centreDistanceM: distanceM } = mesh;
  const [pinionM, ringM] = [mesh.driver.tipRadiusM, mesh.driven.tipRadiusM];
  // Where the tip circles cross, seen from the pinion's centre; the crescent lies about the direction π.
  const crossingRad = Math.acos((ringM ** 2 - pinionM ** 2 - distanceM ** 2) / (2 * distanceM * pinionM));
  const fromRad = Math.PI - CRESCENT_SHARE * (Math.PI - crossingRad);
  const atRingRad = fromRad - Math.asin((distanceM * Math.sin(fromRad)) / ringM);
  return [
    ...moved(arcPoints(ringM, atRingRad, 2 * Math.PI - atRingRad, pointsPerTurn), -distanceM, 0),
    ...arcPoints(pinionM, 2 * Math.PI - fromRad, fromRad, pointsPerTurn),
  ];
}

/**
 * Internal gear pump to scale: the pinion's axis at the origin, the ring's to the left, so that they mesh on the right
 * and the crescent lies on the left. Shape and share of the teeth are as meshTeeth takes them; the crescent is drawn
 * without its clearances.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @param shaftAngleRad - of a tooth of the pinion, counter-clockwise from the line of the axes [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns inside of the ring, pinion, crescent [m]; or why these gears cannot mesh [-]
 */
export function internalGearOutline(
  geometry: InternalGearGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): Outcome<readonly OutlinePart[], GeometryRefusal> {
  const mesh = internalGearMesh(geometry);
  if (!mesh.ok) return mesh;
  const pointsPerFlank = Math.max(2, Math.round(pointsPerTurn / FLANKS_PER_TURN));
  const gears = gearOutlines(mesh.value, geometry.backlashM.value, shaftAngleRad, pointsPerFlank);
  if (!gears.ok) return gears;
  return yes([
    { name: 'ring', encloses: 'bore', outline: gears.value.driven },
    { name: 'pinion', encloses: 'metal', outline: gears.value.driver },
    { name: 'crescent', encloses: 'metal', outline: crescentOutline(mesh.value, pointsPerTurn) },
  ]);
}
