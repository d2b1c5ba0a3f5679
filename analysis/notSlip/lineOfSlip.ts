import { linearRegression, linearRegressionLine, mean, sampleStandardDeviation } from 'simple-statistics';
import type { StrokePoint } from './reliefStrokes.ts';

/** Straight line of flow against pressure difference. */
export type FlowLine = {
  /** @returns flow on the line [m³/s] */
  readonly at: (differentialPressurePa: number) => number;
  /** Scatter of the points about it. */
  readonly deviationM3PerS: number;
  /** Standard uncertainty of the line itself at a pressure difference [m³/s]. */
  readonly standardUncertaintyAt: (differentialPressurePa: number) => number;
};

/** The line of slip, and the first point of the course from which on none lies on it any more. */
export type LineLeft = { readonly line: FlowLine; readonly leftIndex: number };

/** Least points on the line, and off it. */
const LEAST_POINTS = 8;

/** A point lies off the line from so many standard deviations and from this share of the line on: house limits [1]. */
const OFF_DEVIATIONS = 6;
const OFF_SHARE = 0.002;

/** While less of the highest flow than this comes, the delivery line is still filling [1]. */
const LINE_IS_FULL_SHARE = 0.5;

/**
 * Least-squares line through points of a stroke.
 *
 * @param points - three or more [n points]
 * @returns the line with its scatter [m³/s]
 *
 * Source: straight line by least squares and its variance at a place, u²(x) = s² [1/n + (x − x̄)²/Σ(x_i − x̄)²]: any text.
 */
export function flowLine(points: readonly StrokePoint[]): FlowLine {
  const pairs = points.map(({ differentialPressurePa, flowM3PerS }) => [differentialPressurePa, flowM3PerS]);
  const at = linearRegressionLine(linearRegression(pairs));
  const pressures = points.map(({ differentialPressurePa }) => differentialPressurePa);
  const squares = points.map((point) => (point.flowM3PerS - at(point.differentialPressurePa)) ** 2);
  const deviationM3PerS = Math.sqrt(squares.reduce((sum, square) => sum + square, 0) / Math.max(1, points.length - 2));
  const middlePa = mean(pressures);
  const spreadPa2 = sampleStandardDeviation(pressures) ** 2 * (points.length - 1);
  return {
    at,
    deviationM3PerS,
    standardUncertaintyAt: (pressurePa) =>
      deviationM3PerS * Math.sqrt(1 / points.length + (pressurePa - middlePa) ** 2 / Math.max(spreadPa2, 1e-30)),
  };
}

/**
 * How far below a line flow must lie to be off it: six standard deviations, and at least two thousandths of the line.
 *
 * @param line - whose scatter counts [-]
 * @param onLineM3PerS - flow on the line there [m³/s]
 * @param furtherM3PerS - standard uncertainty that comes on top [m³/s]
 * @returns least distance [m³/s]
 *
 * Source: house limits.
 */
export function offLimitM3PerS(line: FlowLine, onLineM3PerS: number, furtherM3PerS = 0): number {
  return Math.max(OFF_DEVIATIONS * Math.hypot(line.deviationM3PerS, furtherM3PerS), OFF_SHARE * Math.abs(onLineM3PerS));
}

function isOff(line: FlowLine, { differentialPressurePa, flowM3PerS }: StrokePoint): boolean {
  const onLineM3PerS = line.at(differentialPressurePa);
  const ofLineM3PerS = line.standardUncertaintyAt(differentialPressurePa);
  return onLineM3PerS - flowM3PerS > offLimitM3PerS(line, onLineM3PerS, ofLineM3PerS);
}

/**
 * The line of slip, and where flow leaves it for good: the line is drawn through the first points of the course, one more
 * at a time, until every later point lies below it, by more than its scatter and its own uncertainty there. The next point
 * is among them, to which the line hardly has to be drawn on, so that a line which bends a little does no harm.
 *
 * @param course - from the line of slip on: a rising stroke as it was taken, a falling one from its end [n points]
 * @returns line and place, or null where flow never leaves the line [m³/s]
 *
 * Source: derived here; limits are house limits.
 */
export function leaveLine(course: readonly StrokePoint[]): LineLeft | null {
  const highestM3PerS = Math.max(...course.map(({ flowM3PerS }) => flowM3PerS));
  const first = course.findIndex(({ flowM3PerS }) => flowM3PerS >= LINE_IS_FULL_SHARE * highestM3PerS);
  for (let left = first + LEAST_POINTS; left <= course.length - LEAST_POINTS; left += 1) {
    const line = flowLine(course.slice(first, left));
    if (course.slice(left).every((point) => isOff(line, point))) return { line, leftIndex: left };
  }
  return null;
}

/** Where flow is not seen to leave it, the line of slip is drawn through this share of the pressure's rise [1]. */
const FIRST_SHARE = 0.4;

/** Slip does not take more than all but this share of the highest flow [1]. */
const LEAST_LEFT_BY_SLIP = 0.05;

/**
 * What of the flow is gone at the highest pressure, against the line of slip that the lower pressures give.
 *
 * @param up - rising stroke [n points, oldest first]
 * @returns share of the line's flow that is missing at the end, of the highest flow where next to none is left; zero where no
 *   line can be drawn [1]
 */
export function shareGoneAtTop(up: readonly StrokePoint[]): number {
  const pressures = up.map(({ differentialPressurePa }) => differentialPressurePa);
  const [lowestPa, highestPa] = [Math.min(...pressures), Math.max(...pressures)];
  const low = up.filter((point) => point.differentialPressurePa <= lowestPa + FIRST_SHARE * (highestPa - lowestPa));
  const top = up.at(-1);
  const highestM3PerS = Math.max(...up.map(({ flowM3PerS }) => flowM3PerS));
  if (top === undefined || !(highestM3PerS > 0)) return 0;
  if (top.flowM3PerS < LEAST_LEFT_BY_SLIP * highestM3PerS) return 1 - top.flowM3PerS / highestM3PerS;
  if (low.length < LEAST_POINTS) return 0;
  const onLine = (leaveLine(up)?.line ?? flowLine(low)).at(top.differentialPressurePa);
  return onLine > 0 ? 1 - top.flowM3PerS / onLine : 0;
}
