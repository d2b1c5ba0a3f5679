import { externalGearMesh } from '../displacement/externalGear.ts';
import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { ExternalGearGeometry } from '../records/geometry/externalGear.ts';
import { gearOutlines } from './gearOutlines.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { twoBores } from './twoBores.ts';

/** Points of a flank in a drawing, as a share of those of a full circle. */
export const FLANKS_PER_TURN = 15;

/**
 * External gear pump to scale: the driver's axis at the origin, the driven gear's to the right. Shape and share of the
 * teeth are as meshTeeth takes them.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @param shaftAngleRad - of a tooth of the driver, counter-clockwise from the line of the axes [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns casing, driver, driven gear [m]; or why these gears cannot mesh [-]
 */
export function externalGearOutline(
  geometry: ExternalGearGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): Outcome<readonly OutlinePart[], GeometryRefusal> {
  const mesh = externalGearMesh(geometry);
  if (!mesh.ok) return mesh;
  const pointsPerFlank = Math.max(2, Math.round(pointsPerTurn / FLANKS_PER_TURN));
  const gears = gearOutlines(mesh.value, geometry.backlashM.value, shaftAngleRad, pointsPerFlank);
  if (!gears.ok) return gears;
  const clearanceM = geometry.tipClearanceM.value;
  const { driver, driven, centreDistanceM } = mesh.value;
  const casing = twoBores(
    driver.tipRadiusM + clearanceM,
    driven.tipRadiusM + clearanceM,
    centreDistanceM,
    pointsPerTurn,
  );
  return yes([
    { name: 'casing', encloses: 'bore', outline: casing },
    { name: 'driver', encloses: 'metal', outline: gears.value.driver },
    { name: 'driven gear', encloses: 'metal', outline: gears.value.driven },
  ]);
}
