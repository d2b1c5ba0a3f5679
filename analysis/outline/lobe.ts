import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { type LobeRotors, lobeRotors } from '../displacement/lobe.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { LobeGeometry } from '../records/geometry/lobe.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved, type Outline, type Point, polygonArea, rotated } from './polygon.ts';
import { twoBores } from './twoBores.ts';

/**
 * A rotor about its own axis, a lobe pointing along x: epicycloids and hypocycloids by turns, from a circle of R/(2N)
 * rolling outside and inside the pitch circle.
 */
function cycloidRotor({ lobeCount, pitchRadiusM }: LobeRotors, pointsPerTurn: number): Outline {
  const rollingM = pitchRadiusM / (2 * lobeCount);
  const halfPitchRad = Math.PI / lobeCount;
  const steps = Math.ceil(pointsPerTurn / (2 * lobeCount));
  const arch = (side: 1 | -1, fromRad: number): Outline =>
    Array.from({ length: steps }, (_, step): Point => {
      const rollRad = (halfPitchRad * step) / steps;
      const armM = pitchRadiusM + side * rollingM;
      const pointRad = fromRad + (side * armM * rollRad) / rollingM;
      return {
        xM: armM * Math.cos(fromRad + rollRad) - side * rollingM * Math.cos(pointRad),
        yM: armM * Math.sin(fromRad + rollRad) - side * rollingM * Math.sin(pointRad),
      };
    });
  return Array.from({ length: lobeCount }, (_, index) => (2 * index - 0.5) * halfPitchRad).flatMap((fromRad) => [
    ...arch(1, fromRad),
    ...arch(-1, fromRad + halfPitchRad),
  ]);
}

/** Tips that were measured lower than the cycloid's are drawn cut back to what they are. */
function cutBack(outline: Outline, tipRadiusM: number): Outline {
  return outline.map(({ xM, yM }) => {
    const share = Math.min(1, tipRadiusM / Math.hypot(xM, yM));
    return { xM: share * xM, yM: share * yM };
  });
}

/**
 * Lobe pump to scale: the driver's axis at the origin, the driven rotor's to the right.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - of a lobe of the driver, counter-clockwise from the line of the axes [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns casing, driver, driven rotor [m]; or why these are no cycloidal rotors [-]
 */
export function lobeOutline(
  geometry: LobeGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): Outcome<readonly OutlinePart[], GeometryRefusal> {
  const found = lobeRotors(geometry);
  if (!found.ok) return found;
  const { tipRadiusM, pitchRadiusM, lobeCount } = found.value;
  const rotor = cutBack(cycloidRotor(found.value, pointsPerTurn), tipRadiusM);
  // A hollow of the driven rotor faces the driver's lobe at rest.
  const drivenRad = Math.PI + Math.PI / lobeCount - shaftAngleRad;
  return yes([
    { name: 'casing', encloses: 'bore', outline: twoBores(tipRadiusM, tipRadiusM, 2 * pitchRadiusM, pointsPerTurn) },
    { name: 'driver', encloses: 'metal', outline: rotated(rotor, shaftAngleRad) },
    { name: 'driven rotor', encloses: 'metal', outline: moved(rotated(rotor, drivenRad), 2 * pitchRadiusM, 0) },
  ]);
}

/** Points of a rotor for its area, which is taken with twice as many too and extrapolated to none missing (Richardson). */
const AREA_POINTS_PER_TURN = 600;

/**
 * Swept volume of a lobe pump from the area of its rotors' outline, V = 2 b (π r_a² − A).
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns volume displaced in a turn of the shaft [m³/rev]; or why these are no cycloidal rotors [-]
 *
 * Source: derived here.
 */
export function lobeVolumeByArea(geometry: LobeGeometry): Outcome<number, GeometryRefusal> {
  const found = lobeRotors(geometry);
  if (!found.ok) return found;
  const drawnM2 = (pointsPerTurn: number): number => polygonArea(cycloidRotor(found.value, pointsPerTurn));
  const areaM2 = (4 * drawnM2(2 * AREA_POINTS_PER_TURN) - drawnM2(AREA_POINTS_PER_TURN)) / 3;
  return yes(2 * found.value.widthM * (Math.PI * found.value.tipRadiusM ** 2 - areaM2));
}
