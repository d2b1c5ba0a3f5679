import type { LawTerm } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { termSubsets } from './admissibleTerms.ts';
import { type LeastSquaresFit, weightedLeastSquares } from './leastSquares.ts';
import { type Coefficients, certainPoint, lawRegressors } from './slipLaw.ts';

const ZERO: Coefficients = {
  derivedCapacityM3PerRev: 0,
  laminarSlipM3: 0,
  orificeSlipM2: 0,
  speedPressureSlipM3PerPa: 0,
};

/** The law's regressors at each hold, in the order of the terms [n holds × p terms]. */
export function lawDesign(holds: readonly HoldState[], terms: readonly LawTerm[]): readonly (readonly number[])[] {
  return holds.map((hold) => {
    const regressors = lawRegressors(certainPoint(hold));
    return terms.map((term) => regressors[term]);
  });
}

/**
 * Weighted fit of some terms of the law, signs free.
 *
 * @param holds - averaged holds [n holds]
 * @param terms - p of them [-]
 * @param weights - one over the variance of each flow [n, s²/m⁶]
 * @returns the fit; null where the holds cannot tell the terms apart [-]
 */
export function fitTerms(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  weights: readonly number[],
): LeastSquaresFit | null {
  const fit = weightedLeastSquares(
    lawDesign(holds, terms),
    holds.map((hold) => hold.inletFlowM3PerS.value),
    weights,
  );
  return fit.ok ? fit.value : null;
}

/** The coefficients of a fit by name; a term that took no part is exactly zero. */
export function coefficientsOf(terms: readonly LawTerm[], fit: LeastSquaresFit): Coefficients {
  const coefficients: Record<LawTerm, number> = { ...ZERO };
  for (const [index, term] of terms.entries()) coefficients[term] = fit.coefficients[index] ?? 0;
  return coefficients;
}

/** Whether no slip coefficient is negative. */
export function isWithoutForwardSlip(terms: readonly LawTerm[], coefficients: Coefficients): boolean {
  return terms.every((term) => term === 'derivedCapacityM3PerRev' || coefficients[term] >= 0);
}

/** Best fit whose slip coefficients are none of them negative: the active set of so few terms is found by trying all. */
export function bestNonNegative(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  weights: readonly number[],
): Coefficients {
  let best: { readonly coefficients: Coefficients; readonly sumOfSquares: number } | null = null;
  for (const subset of termSubsets(terms)) {
    const fit = fitTerms(holds, subset, weights);
    if (fit === null) continue;
    const coefficients = coefficientsOf(subset, fit);
    const isBetter = best === null || fit.weightedResidualSumOfSquares < best.sumOfSquares;
    if (isBetter && isWithoutForwardSlip(subset, coefficients)) {
      best = { coefficients, sumOfSquares: fit.weightedResidualSumOfSquares };
    }
  }
  return best?.coefficients ?? ZERO;
}
