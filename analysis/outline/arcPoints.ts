import type { Outline } from './polygon.ts';

/**
 * Points of an arc about the origin, both ends included.
 *
 * @param radiusM - of the arc [m]
 * @param fromRad - first point, counter-clockwise from x [rad]
 * @param toRad - last point; below `fromRad` the arc runs clockwise [rad]
 * @param pointsPerTurn - how many a full circle would have; an arc has two at the least [1]
 * @returns points in order [m]
 */
export function arcPoints(radiusM: number, fromRad: number, toRad: number, pointsPerTurn: number): Outline {
  const steps = Math.max(1, Math.ceil((Math.abs(toRad - fromRad) / (2 * Math.PI)) * pointsPerTurn));
  return Array.from({ length: steps + 1 }, (_, step) => {
    const angleRad = fromRad + ((toRad - fromRad) * step) / steps;
    return { xM: radiusM * Math.cos(angleRad), yM: radiusM * Math.sin(angleRad) };
  });
}

/**
 * A full circle about the origin.
 *
 * @param radiusM - of the circle [m]
 * @param pointsPerTurn - how many points [1]
 * @returns counter-clockwise from the x axis [m]
 */
export function circlePoints(radiusM: number, pointsPerTurn: number): Outline {
  return arcPoints(radiusM, 0, 2 * Math.PI, pointsPerTurn).slice(0, -1);
}
