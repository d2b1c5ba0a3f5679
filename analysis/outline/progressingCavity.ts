import type { ProgressingCavityGeometry } from '../records/geometry/progressingCavity.ts';
import { arcPoints, circlePoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved } from './polygon.ts';

/**
 * Cross-section of a progressing cavity pump to scale: the stator's hollow lies along x, its middle at the origin; the
 * round section of the rotor runs to and fro in it at 2 e cos φ.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - φ, 0 where the rotor stands at the right end [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns stator, rotor [m]
 */
export function progressingCavityOutline(
  geometry: ProgressingCavityGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const radiusM = geometry.rotorDiameterM.value / 2;
  const strokeM = 2 * geometry.eccentricityM.value;
  const right = arcPoints(radiusM, -Math.PI / 2, Math.PI / 2, pointsPerTurn);
  const left = arcPoints(radiusM, Math.PI / 2, (3 * Math.PI) / 2, pointsPerTurn);
  const rotor = circlePoints(radiusM, pointsPerTurn);
  return [
    { name: 'stator', encloses: 'bore', outline: [...moved(right, strokeM, 0), ...moved(left, -strokeM, 0)] },
    { name: 'rotor', encloses: 'metal', outline: moved(rotor, strokeM * Math.cos(shaftAngleRad), 0) },
  ];
}
