import { type Tooth, toothHalfAngle } from '../displacement/tooth.ts';
import type { Outline, Point } from './polygon.ts';

function polar(radiusM: number, angleRad: number): Point {
  return { xM: radiusM * Math.cos(angleRad), yM: radiusM * Math.sin(angleRad) };
}

/** Radii along a flank from the inside out; on the involute evenly spaced along the line of action. */
function flankRadiiM({ baseRadiusM, innerRadiusM, outerRadiusM }: Tooth, count: number): readonly number[] {
  const startM = Math.max(innerRadiusM, baseRadiusM);
  const from = Math.sqrt(startM ** 2 - baseRadiusM ** 2);
  const to = Math.sqrt(Math.max(0, outerRadiusM ** 2 - baseRadiusM ** 2));
  const shares = Array.from({ length: count }, (_, index) => index / (count - 1));
  const curved = shares.map((share) => Math.hypot(baseRadiusM, from + (to - from) * share));
  if (!(innerRadiusM < baseRadiusM)) return curved;
  return [...shares.slice(0, -1).map((share) => innerRadiusM + (baseRadiusM - innerRadiusM) * share), ...curved];
}

/** Points between two directions on a circle, without either end. */
function arc(radiusM: number, fromRad: number, toRad: number, count: number): readonly Point[] {
  return Array.from({ length: count }, (_, index) =>
    polar(radiusM, fromRad + ((toRad - fromRad) * (index + 1)) / (count + 1)),
  );
}

/**
 * Outline of a spur gear about its own centre, or of the inside of a ring, one tooth (space of the ring) pointing
 * along x at shaft angle 0.
 *
 * @param tooth - shape of the teeth [m, rad]
 * @param shaftAngleRad - turned counter-clockwise by this [rad]
 * @param pointsPerFlank - how finely, 2 or more [1]
 * @returns closed outline, counter-clockwise [m]
 * @throws RangeError if fewer than 2 points are asked for
 */
export function toothedOutline(tooth: Tooth, shaftAngleRad: number, pointsPerFlank: number): Outline {
  if (!(pointsPerFlank >= 2)) throw new RangeError(`pointsPerFlank: ${pointsPerFlank}, expected 2 or more`);
  const { innerRadiusM, outerRadiusM, toothCount } = tooth;
  const flank = flankRadiiM(tooth, pointsPerFlank).map((radiusM) => ({
    radiusM,
    halfRad: toothHalfAngle(tooth, radiusM),
  }));
  const pitchRad = (2 * Math.PI) / toothCount;
  const tipHalfRad = toothHalfAngle(tooth, outerRadiusM);
  const rootHalfRad = toothHalfAngle(tooth, innerRadiusM);
  return Array.from({ length: toothCount }, (_, index) => shaftAngleRad + index * pitchRad).flatMap((at) => [
    ...flank.map(({ radiusM, halfRad }) => polar(radiusM, at - halfRad)),
    ...arc(outerRadiusM, at - tipHalfRad, at + tipHalfRad, pointsPerFlank - 2),
    ...flank.toReversed().map(({ radiusM, halfRad }) => polar(radiusM, at + halfRad)),
    ...arc(innerRadiusM, at + rootHalfRad, at + pitchRad - rootHalfRad, pointsPerFlank - 2),
  ]);
}
