import type { LawTerm } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { termSubsets } from './admissibleTerms.ts';
import { certainPoint, lawFlow } from './slipLaw.ts';
import { coefficientsOf, fitTerms, isWithoutForwardSlip } from './weightedLaw.ts';

const MOST_STEPS = 200;

/** Candidates within this much of the best have substantial support; Burnham and Anderson (2002), 2.6 [1]. */
const SUBSTANTIAL = 2;

type TermCandidate = {
  /** Capacity first. */
  readonly terms: readonly LawTerm[];
  readonly aicc: number;
  /** AICc above that of the best candidate. */
  readonly delta: number;
  /** Weight of evidence for it among the candidates; they add up to 1. */
  readonly akaikeWeight: number;
};

export type TermChoice = {
  /** Best first; none where the holds are too few for any AICc. */
  readonly candidates: readonly TermCandidate[];
  /** Terms in every candidate that has substantial support: the holds cannot be described without. */
  readonly demanded: readonly LawTerm[];
};

/**
 * Least of −2 ln L over coefficients and τ² ≥ 0, less n ln 2π, for r ~ N(0, s² + τ²): Σ ln(s² + τ²) + Σ r²/(s² + τ²).
 * τ² by Fisher scoring, Σ w²(r² − s²)/Σ w². Null where the terms cannot be fitted or slip would run forwards.
 */
function leastDeviance(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  within: readonly number[],
): number | null {
  let between = 0;
  let deviance = Number.POSITIVE_INFINITY;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const weights = within.map((variance) => 1 / (variance + between));
    const fit = fitTerms(holds, terms, weights);
    if (fit === null) return null;
    const coefficients = coefficientsOf(terms, fit);
    const logVariances = weights.reduce((sum, weight) => sum - Math.log(weight), 0);
    const next = logVariances + fit.weightedResidualSumOfSquares;
    const isSettled = deviance - next < 1e-6;
    deviance = Math.min(deviance, next);
    if (isSettled) return isWithoutForwardSlip(terms, coefficients) ? deviance : null;
    let numerator = 0;
    let denominator = 0;
    for (const [index, hold] of holds.entries()) {
      const residual = hold.inletFlowM3PerS.value - lawFlow(coefficients, certainPoint(hold));
      const squaredWeight = (weights[index] ?? 0) ** 2;
      numerator += squaredWeight * (residual ** 2 - (within[index] ?? 0));
      denominator += squaredWeight;
    }
    between = Math.max(0, numerator / denominator);
  }
  return null;
}

/**
 * Which terms of the law the holds demand, by the corrected information criterion of Akaike over every subset whose slip
 * coefficients are none of them negative. The variance of a hold is known but for the one between the holds, which each
 * candidate estimates with its p coefficients: K = p + 1 and AICc = −2 ln L + 2 K + 2 K (K + 1)/(n − K − 1). Where the
 * scatter within the holds is small this is n ln(RSS/n) + …, the form of Hurvich and Tsai; where it explains all it is the
 * weighted sum of squares plus the penalty. A choice says what is plain in the data, never how sure a coefficient is:
 * intervals come from the full admissible model.
 *
 * @param holds - averaged holds [n holds]
 * @param terms - of the full admissible model, capacity first [-]
 * @param within - variance of each hold's residual from the scatter within [n, m⁶/s²]
 * @returns candidates and demanded terms; no candidate where n < K + 2 for all [-]
 *
 * Source: Hurvich and Tsai (1989), Biometrika 76, 297-307; Burnham and Anderson, Model Selection and Multimodel
 * Inference (2002), 2.4 and 2.9; the likelihood with two variances is derived here.
 */
export function chooseTerms(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  within: readonly number[],
): TermChoice {
  const scored = termSubsets(terms).flatMap((subset) => {
    const parameters = subset.length + 1;
    const spare = holds.length - parameters - 1;
    const deviance = spare > 0 ? leastDeviance(holds, subset, within) : null;
    if (deviance === null) return [];
    return [{ terms: subset, aicc: deviance + 2 * parameters + (2 * parameters * (parameters + 1)) / spare }];
  });
  const least = Math.min(...scored.map(({ aicc }) => aicc));
  const total = scored.reduce((sum, { aicc }) => sum + Math.exp((least - aicc) / 2), 0);
  const candidates = scored
    .map((candidate) => ({
      ...candidate,
      delta: candidate.aicc - least,
      akaikeWeight: Math.exp((least - candidate.aicc) / 2) / total,
    }))
    .sort((a, b) => a.aicc - b.aicc);
  const supported = candidates.filter(({ delta }) => delta <= SUBSTANTIAL);
  return {
    candidates,
    demanded:
      supported.length === 0
        ? []
        : terms.filter((term) => supported.every((candidate) => candidate.terms.includes(term))),
  };
}
