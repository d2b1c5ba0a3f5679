import type { HoldState } from '../steady/holdState.ts';
import { studentTCdf } from '../uncertainty/studentT.ts';
import { differenceFrom, unitOf } from '../units.ts';
import type { LeastSquaresFit } from './leastSquares.ts';

/** Chance that a sound run has a hold stand out [1]. */
const FALSE_ALARM = 0.01;

/** A hold that leaves less of its own residual than this fixes a coefficient alone: nothing tests it [1]. */
const LEAST_FREE_SHARE = 1e-9;

export type HoldInfluence = {
  readonly holdNumber: number;
  /** h_ii: share of this hold's own flow in its fitted flow; the h_ii add up to the number of terms [1]. */
  readonly leverage: number;
  /** Above 2 p/n: the fit hangs on it (Hoaglin and Welsch, 1978). */
  readonly isHighLeverage: boolean;
  /** Residual over its own standard deviation, scale from all holds [1]; null where the fit passes through the hold. */
  readonly studentisedResidual: number | null;
  /** Measured minus the flow that the law of all the other holds gives there [m³/s]; null likewise. */
  readonly deletedResidualM3PerS: number | null;
};

/** The hold that the others speak against, if there is one. */
export type StandingOut = { readonly holdNumber: number; readonly probability: number; readonly text: string };

/**
 * Leverage and residuals of each hold about the full model, signs free.
 * h_ii = x_i A_i, t_i = r_i √w_i/(s √(1 − h_ii)) with s² = Σ w r²/(n − p); deleted residual r_i/(1 − h_ii).
 *
 * @param holds - the fitted holds [n holds]
 * @param design - regressors of the full model [n × p]
 * @param weights - of the fit [n, s²/m⁶]
 * @param fit - of the full model [-]
 * @returns one entry a hold, in their order [-]
 *
 * Source: Cook and Weisberg, Residuals and Influence in Regression (1982), 2.1 and 2.2; Hoaglin and Welsch (1978), The
 * American Statistician 32, 17-22.
 */
export function holdInfluences(
  holds: readonly HoldState[],
  design: readonly (readonly number[])[],
  weights: readonly number[],
  fit: LeastSquaresFit,
): readonly HoldInfluence[] {
  const scale = Math.sqrt(fit.weightedResidualSumOfSquares / fit.degreesOfFreedom);
  return holds.map((hold, index) => {
    const row = design[index] ?? [];
    const leverage = row.reduce((sum, entry, term) => sum + entry * (fit.pseudoInverse[term]?.[index] ?? 0), 0);
    const fitted = row.reduce((sum, entry, term) => sum + entry * (fit.coefficients[term] ?? 0), 0);
    const residual = hold.inletFlowM3PerS.value - fitted;
    const free = 1 - leverage;
    const isTested = free > LEAST_FREE_SHARE && scale > 0;
    return {
      holdNumber: hold.number,
      leverage,
      isHighLeverage: leverage > (2 * fit.coefficients.length) / holds.length,
      studentisedResidual: isTested ? (residual * Math.sqrt(weights[index] ?? 0)) / (scale * Math.sqrt(free)) : null,
      deletedResidualM3PerS: isTested ? residual / free : null,
    };
  });
}

/**
 * The hold that stands out most, if a sound run would show one like it less than once in a hundred: its residual against
 * the scatter of the others, t √((ν − 1)/(ν − t²)), by Student's t with ν − 1, times the number of holds (Bonferroni).
 *
 * @param influences - one entry a hold [n holds]
 * @param degreesOfFreedom - ν of the fit [1]
 * @returns the hold, the chance of one like it in a sound run, and what to do; null where none stands out [-]
 *
 * Source: Cook and Weisberg (1982), 2.2.2.
 */
export function holdStandingOut(influences: readonly HoldInfluence[], degreesOfFreedom: number): StandingOut | null {
  if (degreesOfFreedom < 2) return null;
  let found: StandingOut | null = null;
  for (const { holdNumber, studentisedResidual, deletedResidualM3PerS } of influences) {
    if (studentisedResidual === null || deletedResidualM3PerS === null) continue;
    const room = degreesOfFreedom - studentisedResidual ** 2;
    const external =
      room > 0 ? Math.abs(studentisedResidual) * Math.sqrt((degreesOfFreedom - 1) / room) : Number.POSITIVE_INFINITY;
    const tails = Number.isFinite(external) ? 2 * studentTCdf(-external, degreesOfFreedom - 1) : 0;
    const probability = Math.min(1, tails * influences.length);
    if (probability >= FALSE_ALARM || (found !== null && probability >= found.probability)) continue;
    const litresPerMin = differenceFrom(Math.abs(deletedResidualM3PerS), unitOf('l/min')).toPrecision(2);
    found = {
      holdNumber,
      probability,
      text: `Hold ${holdNumber} stands out: it delivered ${litresPerMin} l/min ${deletedResidualM3PerS < 0 ? 'less' : 'more'} than the law of the other holds says. Find out what was different there, repeat it, or leave it out with the reason.`,
    };
  }
  return found;
}
