import { type Course, readingIntervalS } from './course.ts';

/** Half the stretch over which the slope is taken, as a share of the lag; a reading either side at the least [1]. */
const HALF_STRETCH_SHARE = 0.25;
const LEAST_READINGS = 1.2;

/**
 * How far to either side a reading is smeared by {@link unlagged}.
 *
 * @param course - what the instrument shows [s]
 * @param lagS - its lag [s]
 * @returns half of the stretch; 0 without a lag [s]
 */
export function unlaggedHalfStretchS(course: Course, lagS: number): number {
  return lagS === 0 ? 0 : Math.max(LEAST_READINGS * readingIntervalS(course.timesS), HALF_STRETCH_SHARE * lagS);
}

/**
 * What a lagging instrument was shown: q + τ dq/dt, value and slope by a straight line through the readings about each one.
 * Exact for a single lag and a steady slope; an instrument of several lags of the same sum is met to first order.
 *
 * @param course - what it shows [s, SI]
 * @param lagS - τ, sum of its lags, zero or more [s]
 * @returns what it was shown [s, SI]
 *
 * Source: first-order lag, τ dy/dt + y = x; derived here.
 */
export function unlagged(course: Course, lagS: number): Course {
  const { timesS, values } = course;
  if (lagS === 0 || values.length < 3) return course;
  const halfS = unlaggedHalfStretchS(course, lagS);
  let first = 0;
  let end = 0;
  const shown = timesS.map((timeS) => {
    while ((timesS[first] ?? 0) < timeS - halfS) first += 1;
    while (end < timesS.length && (timesS[end] ?? 0) <= timeS + halfS) end += 1;
    let [count, sumT, sumV, sumTT, sumTV] = [0, 0, 0, 0, 0];
    for (let index = first; index < end; index += 1) {
      const sinceS = (timesS[index] ?? 0) - timeS;
      const value = values[index] ?? 0;
      count += 1;
      sumT += sinceS;
      sumV += value;
      sumTT += sinceS * sinceS;
      sumTV += sinceS * value;
    }
    const spread = count * sumTT - sumT * sumT;
    if (!(spread > 0)) return sumV / count;
    const slope = (count * sumTV - sumT * sumV) / spread;
    return (sumV - slope * sumT) / count + lagS * slope;
  });
  return { timesS, values: shown };
}
