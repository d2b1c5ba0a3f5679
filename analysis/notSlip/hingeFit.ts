import { type LeastSquaresFit, weightedLeastSquares } from '../delivery/leastSquares.ts';
import { effectiveReadingCount } from '../uncertainty/effectiveReadings.ts';

/** Two straight lines that meet: y = a + b x up to c, steeper by k beyond: y = a + b x − k (x − c). */
export type Hinge = {
  readonly atZero: number;
  readonly slope: number;
  readonly steepness: number;
  readonly steepnessStandardUncertainty: number;
  /** c, where the lines meet. */
  readonly breakAt: number;
  readonly breakAtStandardUncertainty: number;
  readonly breakAtDegreesOfFreedom: number;
  /** Of the steepness. */
  readonly degreesOfFreedom: number;
};

/** Least points on either side of the break. */
export const LEAST_POINTS_A_SIDE = 4;

/** So many places are tried at first; the best one's neighbourhood is then gone through place by place. */
const PLACES_AT_ONCE = 64;

const GOLDEN = (Math.sqrt(5) - 1) / 2;

type Point = { readonly x: number; readonly y: number };

function fitWith(
  points: readonly Point[],
  breakAt: number,
  moreColumn?: (point: Point) => number,
): LeastSquaresFit | null {
  const design = points.map((point) => {
    const row = [1, point.x, -Math.max(0, point.x - breakAt)];
    return moreColumn === undefined ? row : [...row, moreColumn(point)];
  });
  const fit = weightedLeastSquares(
    design,
    points.map(({ y }) => y),
    points.map(() => 1),
  );
  return fit.ok ? fit.value : null;
}

/** The best of sorted places with its neighbours: a coarse step first, then ever finer ones about the best. */
function bestBetween(places: readonly number[], lossAt: (place: number) => number): readonly [number, number] | null {
  const step = Math.ceil(places.length / PLACES_AT_ONCE);
  const tried = places.filter((_, index) => index % step === 0 || index === places.length - 1);
  const losses = tried.map(lossAt);
  const best = losses.indexOf(Math.min(...losses));
  const [left, right] = [tried[Math.max(0, best - 1)], tried[Math.min(tried.length - 1, best + 1)]];
  if (left === undefined || right === undefined) return null;
  const near = places.filter((place) => place >= left && place <= right);
  return near.length === places.length ? [left, right] : bestBetween(near, lossAt);
}

/** Variance that one side's line has at the break, and how well its scatter is known. */
function lineAtBreak(side: readonly Point[], residuals: readonly number[], breakAt: number) {
  const perPoint = effectiveReadingCount(residuals) / side.length;
  const free = Math.max(1, side.length - 2);
  const scatter = residuals.reduce((sum, residual) => sum + residual ** 2, 0) / free / perPoint;
  const middle = side.reduce((sum, { x }) => sum + x, 0) / side.length;
  const spread = side.reduce((sum, { x }) => sum + (x - middle) ** 2, 0);
  const variance = scatter * (1 / side.length + (breakAt - middle) ** 2 / spread);
  return { variance, degreesOfFreedom: Math.max(1, free * perPoint) };
}

/**
 * Uncertainty of where two lines meet: c = (a₂ − a₁)/k, so that u²(c) = [u²(line 1 at c) + u²(line 2 at c)]/k². Each side has
 * its own scatter, since on the steep one the scatter of x counts too.
 */
function uncertaintyOfBreak(points: readonly Point[], residualOf: (point: Point) => number, place: Place) {
  const { breakAt, steepness } = place;
  const lines = [points.filter(({ x }) => x <= breakAt), points.filter(({ x }) => x > breakAt)].map((side) =>
    lineAtBreak(side, side.map(residualOf), breakAt),
  );
  const variance = lines.reduce((sum, line) => sum + line.variance, 0);
  const fourth = lines.reduce((sum, line) => sum + line.variance ** 2 / line.degreesOfFreedom, 0);
  return {
    standardUncertainty: Math.sqrt(variance) / Math.abs(steepness),
    degreesOfFreedom: fourth === 0 ? points.length - 4 : variance ** 2 / fourth,
  };
}

type Place = { readonly breakAt: number; readonly steepness: number };

/**
 * Fits two straight lines that meet at an unknown place, by least squares: places between two points are tried, the
 * best one narrowed down. The standard uncertainty of the place is that of two lines fitted apart, which is what the fit
 * made straight about it comes to (its fourth column is ∂y/∂c = k beyond c), each with its own scatter; residuals that
 * follow each other count as fewer.
 *
 * @param points - x and y, in the order in which they were taken, in units of about one [n points]
 * @returns the lines and their break; null where fewer than four points lie on either side of every place [-]
 *
 * Source: segmented regression, Hinkley (1971), J. Am. Stat. Assoc. 66, 736-743; unequal scatter: derived here, effective
 * degrees of freedom by JCGM 100:2008, G.4.1; golden section: common practice.
 */
export function hingeFit(points: readonly Point[]): Hinge | null {
  const xs = points.map(({ x }) => x).sort((a, b) => a - b);
  const places = xs.slice(LEAST_POINTS_A_SIDE - 1, -LEAST_POINTS_A_SIDE);
  const lossAt = (place: number): number =>
    fitWith(points, place)?.weightedResidualSumOfSquares ?? Number.POSITIVE_INFINITY;
  const around = bestBetween(places, lossAt);
  if (around === null) return null;
  let [low, high] = around;
  for (let step = 0; step < 60 && high - low > 1e-12 * Math.abs(high); step += 1) {
    const [inner, outer] = [high - GOLDEN * (high - low), low + GOLDEN * (high - low)];
    if (lossAt(inner) <= lossAt(outer)) high = outer;
    else low = inner;
  }
  const breakAt = (low + high) / 2;
  const fit = fitWith(points, breakAt);
  const [atZero, slope, steepness] = fit?.coefficients ?? [];
  if (fit === null || atZero === undefined || slope === undefined || steepness === undefined) return null;
  const linear = fitWith(points, breakAt, ({ x }) => (x > breakAt ? steepness : 0));
  if (linear === null) return null;
  const residualOf = ({ x, y }: Point): number => y - (atZero + slope * x - steepness * Math.max(0, x - breakAt));
  const perPoint = effectiveReadingCount(points.map(residualOf)) / points.length;
  const degreesOfFreedom = Math.max(1, linear.degreesOfFreedom * perPoint);
  const variance = fit.weightedResidualSumOfSquares / linear.degreesOfFreedom / perPoint;
  const ofBreak = uncertaintyOfBreak(points, residualOf, { breakAt, steepness });
  return {
    atZero,
    slope,
    steepness,
    steepnessStandardUncertainty: Math.sqrt(variance * (linear.covarianceUnscaled[2]?.[2] ?? 0)),
    breakAt,
    breakAtStandardUncertainty: ofBreak.standardUncertainty,
    breakAtDegreesOfFreedom: ofBreak.degreesOfFreedom,
    degreesOfFreedom,
  };
}
