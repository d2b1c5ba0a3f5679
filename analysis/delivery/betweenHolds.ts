import type { HoldState } from '../steady/holdState.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { LeastSquaresFit } from './leastSquares.ts';

const MOST_STEPS = 100;

/** Readings without any scatter would have infinite weight: a millionth of the flow is nobody's resolution [1, m³/s]. */
const LEAST_SCATTER_SHARE = 1e-6;
const LEAST_SCATTER_M3_PER_S = 1e-12;

/** What the scatter within a hold alone says of a residual. */
export type WithinScatter = {
  /** [(m³/s)²] */
  readonly variance: number;
  /** Effective degrees of freedom of that variance (Welch-Satterthwaite); null where it is taken as known. */
  readonly degreesOfFreedom: number | null;
};

/**
 * Variance of a residual from the scatter within its own hold alone.
 *
 * @param hold - the hold; its sources are the scatter of its means [-]
 * @param residual - of that hold, with its sensitivities [m³/s]
 * @returns variance, never below that of a millionth of the flow, and its degrees of freedom [m⁶/s², 1]
 *
 * Source: JCGM 100:2008, 5.1.2 and G.4.1.
 */
export function withinScatter(hold: HoldState, residual: Uncertain): WithinScatter {
  let variance = 0;
  let fourthPowers = 0;
  for (const source of hold.sources) {
    const part = ((residual.sensitivities[source.id] ?? 0) * source.standardUncertainty) ** 2;
    variance += part;
    if (source.degreesOfFreedom !== null) fourthPowers += part ** 2 / source.degreesOfFreedom;
  }
  const least = Math.max(LEAST_SCATTER_SHARE * Math.abs(hold.inletFlowM3PerS.value), LEAST_SCATTER_M3_PER_S) ** 2;
  return {
    variance: Math.max(variance, least),
    degreesOfFreedom: fourthPowers > 0 ? variance ** 2 / fourthPowers : null,
  };
}

/**
 * The variance between holds that brings the weighted residuals to their degrees of freedom: none where the scatter
 * within the holds explains them. Newton steps on F(τ²) = Σ r²/(s² + τ²) − ν, which falls and is convex, so that no step
 * overshoots; its slope at the fitted coefficients is −Σ r²/(s² + τ²)².
 *
 * @param within - variances s² within the holds [n, m⁶/s²]
 * @param fitAt - the fit under given weights 1/(s² + τ²), with its residuals; null where there is none [-]
 * @returns τ² [m⁶/s²]
 *
 * Source: Paule and Mandel (1982), J. Res. NBS 87, 377-385, with the Newton step given there.
 */
export function varianceBetweenHolds(
  within: readonly number[],
  fitAt: (
    weights: readonly number[],
  ) => { readonly fit: LeastSquaresFit; readonly residuals: readonly number[] } | null,
): number {
  let between = 0;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const weights = within.map((variance) => 1 / (variance + between));
    const at = fitAt(weights);
    if (at === null) return 0;
    const excess = at.fit.weightedResidualSumOfSquares - at.fit.degreesOfFreedom;
    if (excess <= 1e-10 * at.fit.degreesOfFreedom) return between;
    const slope = at.residuals.reduce((sum, residual, index) => sum + (residual * (weights[index] ?? 0)) ** 2, 0);
    between += excess / slope;
  }
  return between;
}
