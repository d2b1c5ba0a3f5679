import type { PlungerGeometry } from '../records/geometry/plunger.ts';
import { circlePoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved } from './polygon.ts';

/** Angle of each piston, counter-clockwise from where it stands furthest out [rad]. */
function pistonAngles({ pistonCount }: PlungerGeometry, shaftAngleRad: number): readonly number[] {
  return Array.from({ length: pistonCount }, (_, index) => shaftAngleRad + (2 * Math.PI * index) / pistonCount);
}

/**
 * How far each piston stands out of the middle of its stroke, x = (D_p/2) tan β cos θ.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @param shaftAngleRad - of the first piston, from where it stands furthest out [rad]
 * @returns a length a piston, in turn; negative where it is pushed in [m]
 *
 * Source: plane of the swash plate.
 */
export function pistonsOut(geometry: PlungerGeometry, shaftAngleRad: number): readonly number[] {
  const halfStrokeM = (geometry.pitchCircleDiameterM.value / 2) * Math.tan(geometry.swashAngleRad.value);
  return pistonAngles(geometry, shaftAngleRad).map((angleRad) => halfStrokeM * Math.cos(angleRad));
}

/**
 * Pistons of an axial piston pump to scale, looking along the shaft, whose axis is the origin; pistons at the right
 * stand furthest out. The barrel is not measured and not drawn.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @param shaftAngleRad - of the first piston, counter-clockwise from the right [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns the pistons in turn [m]
 */
export function plungerOutline(
  geometry: PlungerGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const pitchRadiusM = geometry.pitchCircleDiameterM.value / 2;
  const piston = circlePoints(geometry.pistonDiameterM.value / 2, pointsPerTurn);
  return pistonAngles(geometry, shaftAngleRad).map((angleRad, index) => ({
    name: `piston ${index + 1}`,
    encloses: 'metal',
    outline: moved(piston, pitchRadiusM * Math.cos(angleRad), pitchRadiusM * Math.sin(angleRad)),
  }));
}
