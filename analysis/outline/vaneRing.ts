import { type CircularRing, ringReach } from '../displacement/vaneRing.ts';
import type { VaneRingGeometry } from '../records/geometry/vaneRing.ts';
import { circlePoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved } from './polygon.ts';
import { vaneOutline } from './vaneOutline.ts';

/**
 * Single vane pump to scale: ring, rotor and vanes, the rotor's axis at the origin and the widest gap to the right.
 * How far the vanes reach into the rotor is drawn, not measured.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - of the first vane, counter-clockwise from the widest gap [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns ring, rotor, then the vanes in turn [m]
 */
export function vaneRingOutline(
  geometry: VaneRingGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const rotorRadiusM = geometry.rotorDiameterM.value / 2;
  const thicknessM = geometry.vaneThicknessM.value;
  const ring: CircularRing = {
    ringRadiusM: geometry.ringDiameterM.value / 2,
    eccentricityM: geometry.eccentricityM.value,
    ringWidthM: geometry.ringWidthM.value,
  };
  const { ringRadiusM, eccentricityM } = ring;
  const lengthM = Math.min(1.25 * (ringReach(ring, 0) - rotorRadiusM), 0.95 * ringReach(ring, Math.PI));
  // The ring stands askew to a vane by arcsin(e/R_c) at most.
  const steepest = eccentricityM / Math.sqrt(ringRadiusM ** 2 - eccentricityM ** 2);
  const bevelM = thicknessM * (steepest / 2 + 0.1);
  const vanes = Array.from({ length: geometry.vaneCount }, (_, index): OutlinePart => {
    const directionRad = shaftAngleRad + (2 * Math.PI * index) / geometry.vaneCount;
    const reachM = ringReach(ring, directionRad);
    const tip = { xM: reachM * Math.cos(directionRad), yM: reachM * Math.sin(directionRad) };
    const outline = vaneOutline({ tip, directionRad, thicknessM, lengthM, bevelM });
    return { name: `vane ${index + 1}`, encloses: 'metal', outline };
  });
  return [
    { name: 'ring', encloses: 'bore', outline: moved(circlePoints(ringRadiusM, pointsPerTurn), eccentricityM, 0) },
    { name: 'rotor', encloses: 'metal', outline: circlePoints(rotorRadiusM, pointsPerTurn) },
    ...vanes,
  ];
}
