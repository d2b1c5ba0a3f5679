import type { HoldState } from '../steady/holdState.ts';
import type { WithinScatter } from './betweenHolds.ts';
import { fUpperTail } from './fDistribution.ts';
import type { LeastSquaresFit } from './leastSquares.ts';
import { levelsOf } from './levels.ts';

/** Chance that a law which is right is called lacking [1]. */
const FALSE_ALARM = 0.01;

export type LackOfFit = {
  /** Residuals against the scatter of the readings within the holds. */
  readonly againstScatter: {
    readonly chiSquare: number;
    readonly degreesOfFreedom: number;
    /** Of the scatter; null where it is taken as known. */
    readonly scatterDegreesOfFreedom: number | null;
    readonly probability: number;
  };
  /** Residuals against what repeated set points differ by; null where too few were repeated. */
  readonly againstRepeats: RepeatTest | null;
  /** By the repeats; null where there are none and nothing can tell a wrong law from holds that do not repeat. */
  readonly isLacking: boolean | null;
  /** What it means, and what to do. */
  readonly text: string;
};

export type RepeatTest = {
  readonly fRatio: number;
  readonly lackDegreesOfFreedom: number;
  readonly repeatDegreesOfFreedom: number;
  readonly probability: number;
};

/**
 * The classical F test for lack of fit: what is left between set points against what is left among repeats of one.
 * F = [(RSS − SS_repeats)/(m − p)]/[SS_repeats/(n − m)], SS_repeats = Σ w (r − r̄)² within each set point. It is formed
 * from residuals, so that repeats which met their set point only nearly are compared at the same point.
 *
 * @param groups - residuals and weights, one group a set point [m groups; any unit]
 * @param termCount - p, coefficients of the fit [1]
 * @returns the test; null where no set point was repeated or m ≤ p [-]
 *
 * Source: Draper and Smith, Applied Regression Analysis (1998), 2.1 and 2.2; NIST/SEMATECH e-Handbook, 4.4.4.6.
 */
export function repeatTest(
  groups: readonly (readonly { readonly residual: number; readonly weight: number }[])[],
  termCount: number,
): RepeatTest | null {
  let residualSum = 0;
  let repeatSum = 0;
  for (const group of groups) {
    const weight = group.reduce((sum, entry) => sum + entry.weight, 0);
    const mean = group.reduce((sum, entry) => sum + entry.weight * entry.residual, 0) / weight;
    for (const entry of group) {
      residualSum += entry.weight * entry.residual ** 2;
      if (group.length > 1) repeatSum += entry.weight * (entry.residual - mean) ** 2;
    }
  }
  const lackDegreesOfFreedom = groups.length - termCount;
  const repeatDegreesOfFreedom = groups.flat().length - groups.length;
  if (lackDegreesOfFreedom <= 0 || repeatDegreesOfFreedom <= 0 || repeatSum <= 0) return null;
  const fRatio = Math.max(0, residualSum - repeatSum) / lackDegreesOfFreedom / (repeatSum / repeatDegreesOfFreedom);
  return {
    fRatio,
    lackDegreesOfFreedom,
    repeatDegreesOfFreedom,
    probability: fUpperTail(fRatio, lackDegreesOfFreedom, repeatDegreesOfFreedom),
  };
}

/** Typical degrees of freedom of one hold's scatter: harmonic mean, an infinite one counting nothing. */
function typicalDegreesOfFreedom(within: readonly WithinScatter[]): number | null {
  const inverse = within.reduce((sum, { degreesOfFreedom }) => sum + 1 / (degreesOfFreedom ?? Infinity), 0);
  return inverse === 0 ? null : within.length / inverse;
}

function textOf(isScattered: boolean, repeats: RepeatTest | null): string {
  if (repeats !== null && repeats.probability < FALSE_ALARM) {
    return 'The law misses more than repeated set points differ by: something other than slip is in the holds (filling, air, a relief valve, drift). The intervals were widened to cover it; look at the residuals before the numbers are used.';
  }
  if (repeats !== null) {
    return isScattered
      ? 'The law misses no more than repeated set points differ by. They differ by more than the scatter of their readings; the intervals were widened to cover it.'
      : 'The law misses no more than the readings scatter.';
  }
  return isScattered
    ? 'The holds lie off the law by more than their readings scatter. Without repeated set points a wrong law cannot be told from holds that do not repeat: the intervals were widened for either. Repeat three set points at the end of the run.'
    : 'The law misses no more than the readings scatter.';
}

/**
 * Whether the full law describes the holds, against two measures: the scatter within the holds, which leaves out whatever
 * differs from one hold to the next, and repeated set points, which have it in them.
 *
 * @param holds - fitted holds [n holds]
 * @param within - their scatter [n]
 * @param scatterFit - the full model weighted by the scatter within alone [-]
 * @param weighted - residual and weight of each hold in the fit that is used [n; m³/s, s²/m⁶]
 * @param termCount - p [1]
 * @returns both tests and what they mean [-]
 *
 * Source: weighted sum of squares against an F with the typical degrees of freedom of one hold's scatter: each ratio r²/s²
 * has the mean ν/(ν − 2) that this F has, and less spread, so that the probability errs towards 'no lack'; derived here.
 */
export function lackOfFit(
  holds: readonly HoldState[],
  within: readonly WithinScatter[],
  scatterFit: LeastSquaresFit,
  weighted: readonly { readonly residual: number; readonly weight: number }[],
  termCount: number,
): LackOfFit {
  const entries = holds.flatMap((hold, index) => {
    const entry = weighted[index];
    return entry === undefined ? [] : [{ ...entry, hold }];
  });
  const groups = levelsOf(entries, ({ hold }) => hold.speedRevPerS.value).flatMap((level) =>
    levelsOf(level, ({ hold }) => hold.differentialPressurePa.value),
  );
  const repeats = repeatTest(groups, termCount);
  const chiSquare = scatterFit.weightedResidualSumOfSquares;
  const { degreesOfFreedom } = scatterFit;
  const scatterDegreesOfFreedom = typicalDegreesOfFreedom(within);
  const probability = fUpperTail(chiSquare / degreesOfFreedom, degreesOfFreedom, scatterDegreesOfFreedom);
  return {
    againstScatter: { chiSquare, degreesOfFreedom, scatterDegreesOfFreedom, probability },
    againstRepeats: repeats,
    isLacking: repeats === null ? null : repeats.probability < FALSE_ALARM,
    text: textOf(probability < FALSE_ALARM, repeats),
  };
}
