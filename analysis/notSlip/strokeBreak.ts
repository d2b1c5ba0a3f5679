import type { Source } from '../uncertainty/source.ts';
import { isBeyondChance } from './checkRead.ts';
import { type Hinge, hingeFit, LEAST_POINTS_A_SIDE } from './hingeFit.ts';
import type { StrokePoint } from './reliefStrokes.ts';

/** Beyond the break the lines are fitted as far as this share of the flow is left: further on the valve is no straight line [1]. */
const LEFT_AT_END_OF_LINE = 0.7;

/** A smaller loss at the highest pressure may be slip and warming oil: a house limit [1]. */
const SMALLEST_LOSS = 0.05;

export type StrokeBreak = {
  readonly hinge: Hinge;
  readonly pressurePa: number;
  readonly standardUncertaintyPa: number;
  /** Null: no scatter, the width of a point is all there is. */
  readonly degreesOfFreedom: number | null;
  /** Flow on the line below the break, drawn on to any pressure difference [m³/s]. */
  readonly lineAtM3PerS: (differentialPressurePa: number) => number;
};

/**
 * What the point that lies across the break adds: the mean of both lines over its width w is off either by (w/8) k at most
 * (at its middle), and moves the break by no more than w/8; rectangular. Derived here.
 */
function acrossBreak(points: readonly { readonly x: number }[], breakAt: number): number {
  const sorted = points.map(({ x }) => x).sort((a, b) => a - b);
  const above = sorted.findIndex((x) => x > breakAt);
  const width = (sorted[above] ?? breakAt) - (sorted[above - 1] ?? breakAt);
  return width / 8 / Math.sqrt(3);
}

/**
 * The break of one stroke: where flow begins to fall faster than slip makes it.
 *
 * @param stroke - up or down [n points, oldest first]
 * @returns the break, or null where flow falls as slip does [Pa, m³/s]
 */
export function breakOf(stroke: readonly StrokePoint[]): StrokeBreak | null {
  const [scalePa, scaleM3PerS] = [
    Math.max(...stroke.map(({ differentialPressurePa }) => differentialPressurePa)),
    Math.max(...stroke.map(({ flowM3PerS }) => flowM3PerS)),
  ];
  const points = stroke.map(({ differentialPressurePa, flowM3PerS }) => ({
    x: differentialPressurePa / scalePa,
    y: flowM3PerS / scaleM3PerS,
  }));
  const rough = hingeFit(points);
  if (rough === null) return null;
  const near = points.filter(({ x, y }) => y >= LEFT_AT_END_OF_LINE * (rough.atZero + rough.slope * x));
  const isEnough = near.filter(({ x }) => x > rough.breakAt).length >= 2 * LEAST_POINTS_A_SIDE;
  const hinge = (isEnough ? hingeFit(near) : null) ?? rough;
  const line = hinge.atZero + hinge.slope;
  const left = Math.min(...points.filter(({ x }) => x > hinge.breakAt).map(({ y }) => y));
  const source: Source = {
    id: 'k',
    label: 'steepness',
    kind: 'random',
    standardUncertainty: hinge.steepnessStandardUncertainty,
    degreesOfFreedom: hinge.degreesOfFreedom,
    shape: 'normal',
    pooledAs: null,
  };
  const steepness = { value: hinge.steepness, sensitivities: { k: 1 } };
  const isOpen = line - left > SMALLEST_LOSS * line && isBeyondChance(steepness, { k: source }, points.length);
  if (!isOpen) return null;
  const [ofScatter, ofWidth] = [hinge.breakAtStandardUncertainty, acrossBreak(points, hinge.breakAt)];
  return {
    hinge,
    pressurePa: hinge.breakAt * scalePa,
    standardUncertaintyPa: Math.hypot(ofScatter, ofWidth) * scalePa,
    // Welch and Satterthwaite, the width being taken as known.
    degreesOfFreedom: ofScatter === 0 ? null : hinge.breakAtDegreesOfFreedom * (1 + (ofWidth / ofScatter) ** 2) ** 2,
    lineAtM3PerS: (differentialPressurePa) =>
      (hinge.atZero + (hinge.slope * differentialPressurePa) / scalePa) * scaleM3PerS,
  };
}

/** Point of a stroke nearest to a pressure difference. */
export function nearest(stroke: readonly StrokePoint[], pressurePa: number): StrokePoint | undefined {
  const distance = (point: StrokePoint): number => Math.abs(point.differentialPressurePa - pressurePa);
  return stroke.reduce<StrokePoint | undefined>(
    (best, point) => (best === undefined || distance(point) < distance(best) ? point : best),
    undefined,
  );
}
