import { type Course, courseBetween } from './course.ts';

/** Where a course bends, by two straight lines that meet. */
export type Knee = {
  readonly atS: number;
  /** Half of the stretch that fits as well, within what noise allows [s]. */
  readonly halfWidthS: number;
  readonly value: number;
  readonly slopeBefore: number;
  readonly slopeAfter: number;
};

/** Readings are averaged to so many points at the most, each of which may be the bend. */
const MOST_POINTS = 120;
const EDGE_POINTS = 4;
/** The sum of squares may rise by this times the noise's variance: 95 % of a chi-square of one. */
const RISE = 3.84;
/** Looked at again so near to where it bent, so that what is curved further off does not count [s]. */
const NEAR_S = 1;
const LEAST_NEAR_POINTS = 24;

/** Means of neighbours, so that there are few enough points. */
function thinned({ timesS, values }: Course): Course {
  const size = Math.ceil(values.length / MOST_POINTS);
  if (size <= 1) return { timesS, values };
  const times: number[] = [];
  const means: number[] = [];
  for (let first = 0; first + size <= values.length; first += size) {
    let [sumS, sum] = [0, 0];
    for (let index = first; index < first + size; index += 1) {
      sumS += timesS[index] ?? 0;
      sum += values[index] ?? 0;
    }
    times.push(sumS / size);
    means.push(sum / size);
  }
  return { timesS: times, values: means };
}

/** Sums of a side of the join: of n, t, t², y, t y, y², with t since the join. */
type Sums = { n: number; t: number; tt: number; y: number; ty: number; yy: number };

function sumsOf({ timesS, values }: Course, atS: number, isAfter: boolean): Sums {
  const sums: Sums = { n: 0, t: 0, tt: 0, y: 0, ty: 0, yy: 0 };
  for (const [index, timeS] of timesS.entries()) {
    if (timeS > atS !== isAfter) continue;
    const [t, y] = [timeS - atS, values[index] ?? 0];
    sums.n += 1;
    sums.t += t;
    sums.tt += t * t;
    sums.y += y;
    sums.ty += t * y;
    sums.yy += y * y;
  }
  return sums;
}

/**
 * Least squares of a + b t before and a + c t after the join. Each slope is (Σty − a Σt)/Σt² of its own side, which leaves
 * a linear equation for a.
 */
function joined(course: Course, atS: number) {
  const [before, after] = [sumsOf(course, atS, false), sumsOf(course, atS, true)];
  if (!(before.tt > 0 && after.tt > 0)) return null;
  const sides = [before, after];
  const weight = sides.reduce((sum, { n, t, tt }) => sum + n - (t * t) / tt, 0);
  if (!(weight > 1e-9)) return null;
  const value = sides.reduce((sum, { y, t, ty, tt }) => sum + y - (t * ty) / tt, 0) / weight;
  const slopeOf = ({ ty, t, tt }: Sums): number => (ty - value * t) / tt;
  const squares = sides.reduce((sum, side) => {
    const slope = slopeOf(side);
    const { n, t, tt, y, ty, yy } = side;
    return sum + yy - 2 * value * y - 2 * slope * ty + n * value * value + 2 * value * slope * t + slope * slope * tt;
  }, 0);
  return { atS, value, slopeBefore: slopeOf(before), slopeAfter: slopeOf(after), squares };
}

/** Best join of two lines over a whole course. */
function kneeOf(course: Course): Knee | null {
  const points = thinned(course);
  const { timesS } = points;
  if (timesS.length < 3 * EDGE_POINTS) return null;
  const level = points.values[0] ?? 0;
  // About its own level: squares of whole pressures would drown the differences.
  const levelled = { timesS, values: points.values.map((value) => value - level) };
  const lines = timesS.slice(EDGE_POINTS, -EDGE_POINTS).flatMap((atS) => joined(levelled, atS) ?? []);
  const [first] = lines;
  if (first === undefined) return null;
  const best = lines.reduce((least, one) => (one.squares < least.squares ? one : least), first);
  const variance = best.squares / Math.max(1, timesS.length - 4);
  const asGood = lines.filter(({ squares }) => squares <= best.squares + RISE * variance);
  const stepS = ((timesS.at(-1) ?? 0) - (timesS[0] ?? 0)) / (timesS.length - 1);
  const spanS = (asGood.at(-1)?.atS ?? best.atS) - (asGood[0]?.atS ?? best.atS);
  const { atS, slopeBefore, slopeAfter } = best;
  return { atS, halfWidthS: spanS / 2 + stepS, value: best.value + level, slopeBefore, slopeAfter };
}

/**
 * The bend of a course: two straight lines that meet where they fit best, and how far the bend may be moved before the fit is
 * worse than its own scatter allows. Sought in all of it first, then nearer to where it was found.
 *
 * @param course - of the stretch in which it bends [s, SI]
 * @returns the knee; null where there are too few readings [s]
 *
 * Source: Hudson (1966), Fitting segmented curves, J. Am. Stat. Assoc. 61, 1097: least squares over the join point.
 */
export function findKnee(course: Course): Knee | null {
  const knee = kneeOf(course);
  if (knee === null) return null;
  const near = courseBetween(course, knee.atS - NEAR_S, knee.atS + NEAR_S);
  return near.values.length < LEAST_NEAR_POINTS ? knee : (kneeOf(near) ?? knee);
}
