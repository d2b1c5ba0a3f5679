import { weightedLeastSquares } from '../delivery/leastSquares.ts';
import type { StrokePoint } from './reliefStrokes.ts';

/** Where a valve left the line of slip at once. */
export type PopOpening = {
  readonly pressurePa: number;
  /** Of a rectangular error: it left between the last point on the line and the next. */
  readonly halfWidthPa: number;
  readonly lineAtM3PerS: (differentialPressurePa: number) => number;
};

/** The line of slip is begun with the points up to this share of the pressure's rise, at the least so many. */
const FIRST_SHARE = 0.4;
const LEAST_ON_LINE = 8;

/** A point lies off the line from so many standard deviations and from this share of the line on [1]. */
const OFF_DEVIATIONS = 6;
const OFF_SHARE = 0.01;

/** A valve pops when within so many points pressure falls back by more than so many steps; one that opens along a line never lets it. */
const POINTS_AFTER = 4;
const STEPS_BACK = 2;

const ROUNDS = 4;

type Line = { readonly at: (differentialPressurePa: number) => number; readonly deviationM3PerS: number };

function lineThrough(points: readonly StrokePoint[]): Line | null {
  const scalePa = Math.max(1, ...points.map(({ differentialPressurePa }) => Math.abs(differentialPressurePa)));
  const fit = weightedLeastSquares(
    points.map(({ differentialPressurePa }) => [1, differentialPressurePa / scalePa]),
    points.map(({ flowM3PerS }) => flowM3PerS),
    points.map(() => 1),
  );
  if (!fit.ok) return null;
  const [atZero = 0, slope = 0] = fit.value.coefficients;
  return {
    at: (pressurePa) => atZero + (slope * pressurePa) / scalePa,
    deviationM3PerS: Math.sqrt(fit.value.weightedResidualSumOfSquares / Math.max(1, fit.value.degreesOfFreedom)),
  };
}

function isOff({ at, deviationM3PerS }: Line, point: StrokePoint): boolean {
  const line = at(point.differentialPressurePa);
  return line - point.flowM3PerS > Math.max(OFF_DEVIATIONS * deviationM3PerS, OFF_SHARE * line);
}

/** First point from which on none lies on the line any more; the number of points where the last one does. */
function departureIndex(stroke: readonly StrokePoint[], line: Line): number {
  return stroke.findLastIndex((point) => !isOff(line, point)) + 1;
}

/** The line of slip: through the points of the stroke up to where flow leaves it for good; null for too few points. */
function lineOfSlip(up: readonly StrokePoint[]): Line | null {
  const pressures = up.map(({ differentialPressurePa }) => differentialPressurePa);
  const firstUpPa = Math.min(...pressures) + FIRST_SHARE * (Math.max(...pressures) - Math.min(...pressures));
  let count = Math.max(
    LEAST_ON_LINE,
    pressures.findIndex((pressurePa) => pressurePa > firstUpPa),
  );
  let line = lineThrough(up.slice(0, count));
  for (let round = 0; round < ROUNDS && line !== null; round += 1) {
    const left = departureIndex(up, line);
    if (left === count || left < LEAST_ON_LINE) break;
    count = left;
    line = lineThrough(up.slice(0, count));
  }
  return line;
}

/**
 * What of the flow is gone at the highest pressure, against the line of slip that the lower pressures give.
 *
 * @param up - rising stroke [n points, oldest first]
 * @returns share of the line's flow that is missing at its end; zero where no line can be drawn [1]
 */
export function shareGoneAtTop(up: readonly StrokePoint[]): number {
  const line = lineOfSlip(up);
  const top = up.at(-1);
  if (line === null || top === undefined) return 0;
  const onLine = line.at(top.differentialPressurePa);
  return onLine > 0 ? 1 - top.flowM3PerS / onLine : 0;
}

function stepAt(pressures: readonly number[], index: number): number {
  return Math.abs((pressures[index] ?? 0) - (pressures[index - 1] ?? 0));
}

/**
 * A valve that pops: flow leaves the line of slip from one moment to the next, and pressure falls back. Two lines that meet
 * cannot follow that, since the same pressures are met on the line before and far below it after. In time order the line is
 * fitted to the points before flow leaves it for good. The last of them is a mean over its quarter second, and the valve opened
 * in the next: a step on, give or take a step.
 *
 * @param up - rising stroke [n points, oldest first]
 * @param after - what came behind the highest pressure [m points, oldest first]
 * @returns the opening, or null for a valve that does not pop: one that opens along a line, or none [Pa, m³/s]
 *
 * Source: derived here; the shares are house limits.
 */
export function popOpening(up: readonly StrokePoint[], after: readonly StrokePoint[]): PopOpening | null {
  const line = lineOfSlip(up);
  if (line === null) return null;
  const { at } = line;
  const pressures = up.map(({ differentialPressurePa }) => differentialPressurePa);
  const left = departureIndex(up, line);
  const last = up[left - 1];
  if (last === undefined || left < LEAST_ON_LINE) return null;
  const stepPa = Math.max(stepAt(pressures, left - 1), stepAt(pressures, left - 2));
  const behind = [...up.slice(left), ...after].slice(0, POINTS_AFTER);
  const fallenTo = Math.min(...behind.map(({ differentialPressurePa }) => differentialPressurePa));
  const isFarOff = behind.length === POINTS_AFTER && behind.slice(1).every((point) => isOff(line, point));
  if (!isFarOff || last.differentialPressurePa - fallenTo <= STEPS_BACK * stepPa) return null;
  return { pressurePa: last.differentialPressurePa + stepPa, halfWidthPa: stepPa, lineAtM3PerS: at };
}
