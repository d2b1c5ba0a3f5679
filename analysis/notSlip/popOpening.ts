import { flowLine, leaveLine, offLimitM3PerS } from './lineOfSlip.ts';
import type { StrokePoint } from './reliefStrokes.ts';

/** Where a valve left the line of slip, or came back to it, with a jump. */
export type Pop = {
  /** Pressure difference of the moment. */
  readonly pressurePa: number;
  /** Of a rectangular error: it happened within one point either way. */
  readonly halfWidthPa: number;
  /** Flow on the line of slip, drawn on to any pressure difference [m³/s]. */
  readonly lineAtM3PerS: (differentialPressurePa: number) => number;
};

/** Beyond the jump a line is drawn through points down to this share of the line of slip [1]. */
const LEFT_AT_END_OF_LINE = 0.7;

/** With fewer points so near to the line of slip, flow went from one moment to the next. */
const LEAST_POINTS = 4;

/** The quickest of so many steps before the moment tells how far the pressure got within a point. */
const STEPS_BEFORE = 4;

/** The moment came a step behind the last point that is wholly before it, give or take a step. */
function momentAfter(before: readonly StrokePoint[]): Pick<Pop, 'pressurePa' | 'halfWidthPa'> | null {
  const pressures = before.slice(-1 - STEPS_BEFORE).map(({ differentialPressurePa }) => differentialPressurePa);
  const last = pressures.at(-1);
  const steps = pressures.slice(1).map((pressurePa, index) => pressurePa - (pressures[index] ?? pressurePa));
  if (last === undefined || steps.length === 0) return null;
  const stepPa = steps.reduce((quickest, step) => (Math.abs(step) > Math.abs(quickest) ? step : quickest), 0);
  return { pressurePa: last + stepPa, halfWidthPa: Math.abs(stepPa) };
}

type Jump = { readonly leftIndex: number; readonly lineAtM3PerS: Pop['lineAtM3PerS'] };

/** Where a course leaves the line with a jump; null where it leaves gradually, or never. */
function jumpOf(course: readonly StrokePoint[]): Jump | null {
  const left = leaveLine(course);
  if (left === null) return null;
  const { line, leftIndex } = left;
  const lastOn = course[leftIndex - 1];
  // The first point off lies across the moment, a mean of before and after.
  const beyond = course.slice(leftIndex + 1);
  const end = beyond.findIndex(
    (point) => point.flowM3PerS < LEFT_AT_END_OF_LINE * line.at(point.differentialPressurePa),
  );
  const near = end === -1 ? beyond : beyond.slice(0, end);
  if (lastOn === undefined) return null;
  const jump = { leftIndex, lineAtM3PerS: line.at };
  if (near.length < LEAST_POINTS) return jump;
  const second = flowLine(near);
  const lastPa = lastOn.differentialPressurePa;
  const onLineM3PerS = line.at(lastPa);
  const belowM3PerS = onLineM3PerS - second.at(lastPa);
  return belowM3PerS > offLimitM3PerS(line, onLineM3PerS, second.standardUncertaintyAt(lastPa)) ? jump : null;
}

/**
 * A valve that pops: flow leaves the line of slip from one moment to the next, and the pressure falls back. Two lines that
 * meet cannot follow that, since the same pressures are met on the line before and below it after. In time order, then: the
 * last point on the line before flow leaves it for good, and the line beyond, drawn back to that point. Where it passes
 * below the line of slip there, by more than puts a point off it, flow has jumped. The valve opened a step of pressure
 * behind the last point on the line, which is a mean over its quarter second, give or take a step.
 *
 * @param up - rising stroke [n points, oldest first]
 * @returns the opening, or null for a valve that opens along a line, or none [Pa, m³/s]
 *
 * Source: derived here; the shares are house limits.
 */
export function popOpening(up: readonly StrokePoint[]): Pop | null {
  const jump = jumpOf(up);
  if (jump === null) return null;
  const moment = momentAfter(up.slice(0, jump.leftIndex));
  return moment === null ? null : { ...moment, lineAtM3PerS: jump.lineAtM3PerS };
}

/**
 * A valve that snaps shut: the same, read from the end of the falling stroke backwards. The pressure of the moment follows
 * from the points off the line, since it jumps up when the valve shuts.
 *
 * @param down - falling stroke [n points, oldest first]
 * @returns the closing, or null for a valve that closes along a line, or not [Pa, m³/s]
 *
 * Source: derived here; the shares are house limits.
 */
export function snapClosing(down: readonly StrokePoint[]): Pop | null {
  const jump = jumpOf(down.toReversed());
  if (jump === null) return null;
  const offCount = down.length - jump.leftIndex;
  const moment = momentAfter(down.slice(0, offCount - 1));
  return moment === null ? null : { ...moment, lineAtM3PerS: jump.lineAtM3PerS };
}
