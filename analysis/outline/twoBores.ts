import { arcPoints } from './arcPoints.ts';
import { moved, type Outline } from './polygon.ts';

/**
 * Two bores that cut into each other, as one line: one about the origin, the other to its right.
 *
 * @param leftRadiusM - of the bore about the origin [m]
 * @param rightRadiusM - of the other [m]
 * @param centreDistanceM - below the sum of both radii and above their difference [m]
 * @param pointsPerTurn - of a full circle [1]
 * @returns closed outline, counter-clockwise [m]
 */
export function twoBores(
  leftRadiusM: number,
  rightRadiusM: number,
  centreDistanceM: number,
  pointsPerTurn: number,
): Outline {
  const cuspM = (centreDistanceM ** 2 + leftRadiusM ** 2 - rightRadiusM ** 2) / (2 * centreDistanceM);
  const leftRad = Math.acos(cuspM / leftRadiusM);
  const rightRad = Math.acos((centreDistanceM - cuspM) / rightRadiusM);
  const right = arcPoints(rightRadiusM, rightRad - Math.PI, Math.PI - rightRad, pointsPerTurn);
  return [
    ...arcPoints(leftRadiusM, leftRad, 2 * Math.PI - leftRad, pointsPerTurn),
    ...moved(right, centreDistanceM, 0).slice(1, -1),
  ];
}
