import { moved, type Outline, type Point, rotated } from './polygon.ts';

/** A vane as it is drawn [m, rad]. */
type Vane = {
  /** Where its tip touches the ring, on its middle line. */
  readonly tip: Point;
  /** Direction in which it slides out. */
  readonly directionRad: number;
  readonly thicknessM: number;
  readonly lengthM: number;
  /** How far its edges lie behind the tip. */
  readonly bevelM: number;
};

/**
 * Outline of a vane: flat sides, a blunt roof that touches the ring on the vane's middle line.
 *
 * @param vane - tip, direction and sizes [m, rad]
 * @returns five points, counter-clockwise [m]
 */
export function vaneOutline(vane: Vane): Outline {
  const { tip, directionRad, thicknessM, lengthM, bevelM } = vane;
  const lying: Outline = [
    { xM: 0, yM: 0 },
    { xM: -bevelM, yM: thicknessM / 2 },
    { xM: -lengthM, yM: thicknessM / 2 },
    { xM: -lengthM, yM: -thicknessM / 2 },
    { xM: -bevelM, yM: -thicknessM / 2 },
  ];
  return moved(rotated(lying, directionRad), tip.xM, tip.yM);
}
