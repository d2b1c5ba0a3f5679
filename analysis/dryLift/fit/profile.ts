import { Matrix } from 'ml-matrix';
import { fitSensitivities, sumOfSquares } from '../../fitting/levenbergMarquardt.ts';
import { ENTRY_LOSS, LOG_LEAK } from './fitSpace.ts';
import type { SearchedFit } from './fitUnknowns.ts';

type ProfilePoint = {
  readonly parameters: readonly number[];
  /** Signed root of what the sum of squares rises by over the slice's least: nearly straight, so that it can be read between. */
  readonly signedRoot: number;
};

/** Points by rising leak-back, at one entry loss or with the entry loss fitted. */
type ProfileSlice = {
  readonly points: readonly ProfilePoint[];
  /** What the sum of squares is over the least of all, at its best. */
  readonly rise: number;
  /** Covariance of what is not held in the slice, at a given leak-back; zero for what is held [p × p]. */
  readonly conditionalCovariance: readonly (readonly number[])[];
};

/** What any leak-back costs: the sum of squares with everything else fitted to it. */
export type Profile = { readonly slices: readonly ProfileSlice[] };

/** Points lie so many standard deviations of the leak-back apart [1]. */
const STEP_DEVIATIONS = 0.75;
/** Further out than any interval of 95 % [1]. */
const ENOUGH_RISE = 5;
const MOST_STEPS = 12;
const MOST_REFINEMENTS = 6;
/** A sum of squares that still falls by less is as low as it will go [1]. */
const GAIN = 3e-3;
/** Slices lie so many of its standard deviations from the best entry loss [1]. */
const SLICES: readonly number[] = [-1.7, -1, 1, 1.7];
/** An entry loss that the readings tell better acts straight, and needs no slices; standard deviations of its range [1]. */
const TOLD_ENTRY_LOSS = 0.3;

type Found = { readonly parameters: readonly number[]; readonly sum: number };

/** Gauss and Newton's steps with the Jacobian of the best fit, some parameters held. */
function refinement(fit: SearchedFit, held: readonly number[]) {
  const free = fit.parameters.map((_, index) => index).filter((index) => !held.includes(index));
  const inner = fitSensitivities(new Matrix(fit.jacobian.map((row) => free.map((index) => row[index] ?? Number.NaN))));
  const size = fit.parameters.length;
  const covariance = Array.from({ length: size }, () => new Array<number>(size).fill(0));
  for (const [row, at] of free.entries()) {
    const line = covariance[at];
    if (line === undefined) continue;
    for (const [column, other] of free.entries()) line[other] = inner?.covarianceUnscaled[row]?.[column] ?? Number.NaN;
  }
  const improve = (from: readonly number[]): Found => {
    let best = from;
    let here = fit.residuals(best);
    let sum = sumOfSquares(here);
    let share = 1;
    for (let turn = 0; turn < MOST_REFINEMENTS; turn += 1) {
      const tried = [...best];
      for (const [row, index] of free.entries()) {
        const line = inner?.pseudoInverse[row] ?? [];
        let move = 0;
        for (const [at, value] of line.entries()) move -= value * (here[at] ?? 0);
        tried[index] = (tried[index] ?? Number.NaN) + share * move;
      }
      const there = fit.residuals(tried);
      const triedSum = sumOfSquares(there);
      if (!(triedSum < sum)) {
        share /= 4;
        if (triedSum - sum < GAIN) break;
        continue;
      }
      const gain = sum - triedSum;
      best = tried;
      here = there;
      sum = triedSum;
      if (gain < GAIN) break;
    }
    return { parameters: best, sum };
  };
  return { covariance, improve };
}

/** The slice through a point along the leak-back, other parameters held besides. */
function sliceThrough(fit: SearchedFit, middle: Found, held: readonly number[]): ProfileSlice {
  const { covariance, improve } = refinement(fit, [LOG_LEAK, ...held]);
  const stepSize = STEP_DEVIATIONS * Math.sqrt(fit.covariance[LOG_LEAK]?.[LOG_LEAK] ?? Number.NaN);
  const side = (sign: 1 | -1): readonly ProfilePoint[] => {
    const points: ProfilePoint[] = [];
    let [before, from] = [middle.parameters, middle.parameters];
    for (let step = 1; step <= MOST_STEPS; step += 1) {
      // Straight on from the two points before: where all is straight, that is the answer already.
      const guess = from.map((value, index) =>
        index === LOG_LEAK ? value + sign * stepSize : step === 1 ? value : 2 * value - (before[index] ?? value),
      );
      const point = improve(guess);
      if (!Number.isFinite(point.sum)) break;
      points.push({
        parameters: point.parameters,
        signedRoot: sign * Math.sqrt(Math.max(0, point.sum - middle.sum)),
      });
      if (point.sum - fit.sumOfSquares > ENOUGH_RISE) break;
      before = from;
      from = point.parameters;
    }
    return points;
  };
  return {
    points: [...side(-1).toReversed(), { parameters: middle.parameters, signedRoot: 0 }, ...side(1)],
    rise: Math.max(0, middle.sum - fit.sumOfSquares),
    conditionalCovariance: covariance,
  };
}

/**
 * Profile of the leak-back: for values below and above the fitted one all other parameters are fitted again, from neighbour
 * to neighbour. Where the readings hardly tell the leak-back, its errors are neither normal nor alike on both sides, and only
 * the profile shows it. The entry loss bends what follows from the leak-back: where the readings do not tell it, the profile is
 * taken at several values of it.
 *
 * @param fit - the best fit [-]
 * @returns slices, the first with the entry loss fitted [-]
 *
 * Source: profile likelihood, e.g. Pawitan, In All Likelihood (2001), 3.4; JCGM 101:2008, 5.11 on when linear intervals fail.
 */
export function leakProfile(fit: SearchedFit): Profile {
  const best: Found = { parameters: fit.parameters, sum: fit.sumOfSquares };
  const main = sliceThrough(fit, best, []);
  const deviation = Math.sqrt(fit.covariance[ENTRY_LOSS]?.[ENTRY_LOSS] ?? 0);
  const isKnown = fit.space.isEntryLossKnown;
  if (isKnown || deviation < TOLD_ENTRY_LOSS) return { slices: [main] };
  const { improve } = refinement(fit, [ENTRY_LOSS]);
  const others = SLICES.map((by) => {
    const along = fit.parameters.map((value, index) => {
      const share = (fit.covariance[ENTRY_LOSS]?.[index] ?? 0) / deviation;
      return value + by * share;
    });
    return sliceThrough(fit, improve(along), [ENTRY_LOSS]);
  });
  return { slices: [main, ...others] };
}
