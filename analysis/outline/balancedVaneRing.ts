import type { BalancedVaneRingGeometry } from '../records/geometry/balancedVaneRing.ts';
import { circlePoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import type { Outline, Point } from './polygon.ts';
import { vaneOutline } from './vaneOutline.ts';

/** Halvings of the search for the place where a leaned vane touches the ring: beyond the digits of a double [1]. */
const HALVINGS = 60;

/**
 * Radius of the cam ring: arcs of the major radius at 0 and π, of the minor radius at ±π/2, each a vane pitch long, and
 * a half cosine between. The arcs are what the volume rests on; the curve between them is drawn, not measured.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param angleRad - counter-clockwise from the middle of a wide arc [rad]
 * @returns distance of the ring from the axis [m]
 */
export function camRadius(geometry: BalancedVaneRingGeometry, angleRad: number): number {
  const majorRadiusM = geometry.majorDiameterM.value / 2;
  const minorRadiusM = geometry.minorDiameterM.value / 2;
  const fromWideRad = Math.abs(angleRad - Math.PI * Math.round(angleRad / Math.PI));
  const halfArcRad = Math.PI / geometry.vaneCount;
  const share = Math.min(1, Math.max(0, (fromWideRad - halfArcRad) / (Math.PI / 2 - 2 * halfArcRad)));
  return minorRadiusM + ((majorRadiusM - minorRadiusM) * (1 + Math.cos(Math.PI * share))) / 2;
}

/** Where a vane touches the ring: from the rim at `rimRad` outwards along its own direction. */
function vaneTip(geometry: BalancedVaneRingGeometry, rimRad: number): Point {
  const rimM = geometry.rotorDiameterM.value / 2;
  const directionRad = rimRad + geometry.vaneLeanRad;
  const at = (slidM: number): Point => ({
    xM: rimM * Math.cos(rimRad) + slidM * Math.cos(directionRad),
    yM: rimM * Math.sin(rimRad) + slidM * Math.sin(directionRad),
  });
  let insideM = 0;
  let outsideM = geometry.majorDiameterM.value;
  for (let halving = 0; halving < HALVINGS; halving += 1) {
    const middleM = (insideM + outsideM) / 2;
    const { xM, yM } = at(middleM);
    if (Math.hypot(xM, yM) < camRadius(geometry, Math.atan2(yM, xM))) insideM = middleM;
    else outsideM = middleM;
  }
  return at(insideM);
}

function camOutline(geometry: BalancedVaneRingGeometry, pointsPerTurn: number): Outline {
  return Array.from({ length: pointsPerTurn }, (_, index) => {
    const angleRad = (2 * Math.PI * index) / pointsPerTurn;
    const radiusM = camRadius(geometry, angleRad);
    return { xM: radiusM * Math.cos(angleRad), yM: radiusM * Math.sin(angleRad) };
  });
}

/**
 * Balanced vane pump to scale: cam ring, rotor and leaned vanes, the common axis at the origin, the wide arcs of the
 * ring left and right. How far the vanes reach into the rotor is drawn, not measured.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @param shaftAngleRad - where the first slot meets the rotor's rim, counter-clockwise from a wide arc [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns cam ring, rotor, then the vanes in turn [m]
 */
export function balancedVaneRingOutline(
  geometry: BalancedVaneRingGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const thicknessM = geometry.vaneThicknessM.value;
  const reachM = (geometry.majorDiameterM.value - geometry.rotorDiameterM.value) / 2;
  const vanes = Array.from({ length: geometry.vaneCount }, (_, index): OutlinePart => {
    const rimRad = shaftAngleRad + (2 * Math.PI * index) / geometry.vaneCount;
    const outline = vaneOutline({
      tip: vaneTip(geometry, rimRad),
      directionRad: rimRad + geometry.vaneLeanRad,
      thicknessM,
      lengthM: Math.min(2 * reachM, geometry.rotorDiameterM.value / 3),
      bevelM: thicknessM * (Math.tan(geometry.vaneLeanRad) / 2 + 0.25),
    });
    return { name: `vane ${index + 1}`, encloses: 'metal', outline };
  });
  return [
    { name: 'cam ring', encloses: 'bore', outline: camOutline(geometry, pointsPerTurn) },
    { name: 'rotor', encloses: 'metal', outline: circlePoints(geometry.rotorDiameterM.value / 2, pointsPerTurn) },
    ...vanes,
  ];
}
