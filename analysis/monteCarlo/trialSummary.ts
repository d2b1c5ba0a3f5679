import type { Stated } from '../uncertainty/stated.ts';

/** An interval [unit of the value]. */
type Interval = readonly [low: number, high: number];

/** What the trials say of one value. */
export type TrialSummary = {
  readonly mean: number;
  readonly standardDeviation: number;
  /** As many trials below as above. */
  readonly symmetricInterval: Interval;
  /** The narrowest with so many trials in it. */
  readonly shortestInterval: Interval;
  /** Standard error of the symmetric interval's two ends, for so many trials. */
  readonly endStandardErrors: Interval;
};

/** Fewest trials with which the ends of a 95 % interval mean anything; JCGM 101:2008, 7.2 asks for far more. */
const LEAST_TRIALS = 1000;

function at(sorted: Float64Array, index: number): number {
  return sorted[Math.min(sorted.length - 1, Math.max(0, index))] ?? Number.NaN;
}

/**
 * Mean, standard deviation and coverage intervals of trials.
 *
 * @param values - one value a trial, 1000 or more, all finite [any unit]
 * @param coverageProbability - of the intervals [1]
 * @returns mean, deviation and intervals [unit of the values]
 * @throws RangeError if there are too few trials, or one is not finite
 *
 * Source: JCGM 101:2008, 7.6 (mean and standard deviation), 7.7 (intervals). Standard error of an end: the values one
 * standard deviation √(M p (1 − p)) of its rank to either side, half their distance; order statistics.
 */
export function trialSummary(values: Float64Array, coverageProbability = 0.95): TrialSummary {
  const trials = values.length;
  if (trials < LEAST_TRIALS) throw new RangeError(`values: ${trials} trials, expected ${LEAST_TRIALS} or more`);
  let sum = 0;
  for (const value of values) sum += value;
  const mean = sum / trials;
  if (!Number.isFinite(mean)) throw new RangeError('values: a trial is not a finite number');
  let squares = 0;
  for (const value of values) squares += (value - mean) ** 2;
  const sorted = Float64Array.from(values).sort();
  const within = Math.floor(coverageProbability * trials + 0.5);
  const first = Math.floor((trials - within) / 2);
  let shortest = 0;
  for (let low = 1; low + within < trials; low += 1) {
    const isNarrower =
      at(sorted, low + within) - at(sorted, low) < at(sorted, shortest + within) - at(sorted, shortest);
    if (isNarrower) shortest = low;
  }
  const tail = (1 - coverageProbability) / 2;
  const rankDeviation = Math.max(1, Math.round(Math.sqrt(trials * tail * (1 - tail))));
  const errorOfEnd = (index: number): number =>
    (at(sorted, index + rankDeviation) - at(sorted, index - rankDeviation)) / 2;
  return {
    mean,
    standardDeviation: Math.sqrt(squares / (trials - 1)),
    symmetricInterval: [at(sorted, first), at(sorted, first + within)],
    shortestInterval: [at(sorted, shortest), at(sorted, shortest + within)],
    endStandardErrors: [errorOfEnd(first), errorOfEnd(first + within)],
  };
}

/** The interval by propagation held against that of the trials. */
export type IntervalComparison = {
  /** value ± U. */
  readonly byPropagation: Interval;
  /** Propagation less trials, at the low and at the high end [unit of the value]. */
  readonly differences: Interval;
  /** Half a unit in the first significant digit of the standard uncertainty [unit of the value]. */
  readonly tolerance: number;
  /** Both ends agree within the tolerance and twice the trials' own standard error. */
  readonly agrees: boolean;
  /** The interval by propagation has that of the trials inside it, within the same allowance: safe, if not sharp. */
  readonly contains: boolean;
};

/**
 * Compares the interval of the law of propagation with that of trials: d_low = |y − U − y_low|, d_high = |y + U − y_high|,
 * each at most δ, half a unit in the last place of u written with one significant digit. Twice the standard error of the
 * trials' own ends is allowed besides, which the standard keeps small by running as many trials as it takes.
 *
 * @param stated - by propagation, with its expanded uncertainty [any unit]
 * @param trials - by Monte Carlo [unit of stated]
 * @returns both intervals' differences and whether they agree [unit of stated]
 *
 * Source: JCGM 101:2008, 7.9.2 (δ) and 8.1 (comparison).
 */
export function compareIntervals(
  stated: Pick<Stated, 'value' | 'standardUncertainty' | 'expandedUncertainty'>,
  trials: TrialSummary,
): IntervalComparison {
  const { value, standardUncertainty, expandedUncertainty } = stated;
  const byPropagation: Interval = [value - expandedUncertainty, value + expandedUncertainty];
  // toExponential rounds: 0.0996 is written 1e-1, and half a unit of that is 0.05.
  const exponent = Number(standardUncertainty.toExponential(0).split('e')[1] ?? '0');
  const tolerance = standardUncertainty === 0 ? 0 : 0.5 * 10 ** exponent;
  const differences: Interval = [
    byPropagation[0] - trials.symmetricInterval[0],
    byPropagation[1] - trials.symmetricInterval[1],
  ];
  const [low, high] = trials.endStandardErrors;
  const allowances: Interval = [tolerance + 2 * low, tolerance + 2 * high];
  return {
    byPropagation,
    differences,
    tolerance,
    agrees: Math.abs(differences[0]) <= allowances[0] && Math.abs(differences[1]) <= allowances[1],
    contains: differences[0] <= allowances[0] && differences[1] >= -allowances[1],
  };
}
