import { withinScatter } from '../delivery/betweenHolds.ts';
import type { SlipFit } from '../delivery/fitSlip.ts';
import { flowResidual } from '../delivery/flowResidual.ts';
import { weightedLeastSquares } from '../delivery/leastSquares.ts';
import { type Coefficients, certainPoint, lawFlow, lawRegressors } from '../delivery/slipLaw.ts';
import type { HoldState } from '../steady/holdState.ts';
import { coverageFactor } from '../uncertainty/studentT.ts';

/** A hold in the dimensionless view. */
type DimensionlessPoint = {
  readonly holdNumber: number;
  /** S = µ n/Δp [1]. */
  readonly speedNumber: number;
  /** q_1/(V_i n) as measured [1]. */
  readonly measuredEfficiency: number;
  /** The same with the fitted orifice and n Δp parts given back: a sound pump's holds fall on one curve [1]. */
  readonly correctedEfficiency: number;
  /** Corrected efficiency less the curve, in its random standard uncertainty; null where too few holds tell [1]. */
  readonly deviation: number | null;
  readonly leavesCurve: boolean;
  /** It took part in the fit; what was left out is judged against the others' curve. */
  readonly isInFit: boolean;
};

export type DimensionlessView = {
  /** By speed number, smallest first. */
  readonly points: readonly DimensionlessPoint[];
  /** The curve 1 − C_l/(V_i S): what S must be multiplied with, C_l/V_i [1]. */
  readonly slipNumber: number;
  /** Deviations beyond this leave the curve; null where too few holds tell [1]. */
  readonly limit: number | null;
  /** Holds without a pressure rise or without speed have no place in this view. */
  readonly withoutPlace: readonly number[];
};

/** How often a sound pump's run may show any hold off the curve [1]. */
const FALSE_ALARM_SHARE = 0.01;

function residualVariance(hold: HoldState, coefficients: Coefficients): number {
  return withinScatter(hold, flowResidual(hold, coefficients)).variance;
}

/**
 * The curve on which a sound pump's holds fall: η_V = 1 − C_l/(V_i S).
 *
 * @param slipNumber - C_l/V_i, zero or more [1]
 * @param speedNumber - S = µ n/Δp, > 0 [1]
 * @returns volumetric efficiency [1]
 *
 * Source: Wilson (1946), Trans. ASME 68; his slip coefficient is 2π C_l/V_i, his number 2π S.
 *
 * @example dimensionlessCurve(1e-9, 1e-7) // 0.99
 */
export function dimensionlessCurve(slipNumber: number, speedNumber: number): number {
  return 1 - slipNumber / speedNumber;
}

/** Share of a hold in its own fitted value, and variance of the prediction at any hold, at unit scale. */
function predictionVariances(
  holds: readonly HoldState[],
  fitted: readonly HoldState[],
  coefficients: Coefficients,
  terms: SlipFit['terms'],
): { readonly variances: readonly number[]; readonly termCount: number } | null {
  // A coefficient that was held at zero bends no curve.
  const used = terms.filter((term, index) => index === 0 || coefficients[term] > 0);
  const rowOf = (hold: HoldState): readonly number[] => {
    const regressors = lawRegressors(certainPoint(hold));
    return used.map((term) => regressors[term]);
  };
  const fit = weightedLeastSquares(
    fitted.map(rowOf),
    fitted.map((hold) => hold.inletFlowM3PerS.value),
    fitted.map((hold) => 1 / residualVariance(hold, coefficients)),
  );
  if (!fit.ok) return null;
  const { covarianceUnscaled } = fit.value;
  const variances = holds.map((hold) => {
    const row = rowOf(hold);
    return row.reduce(
      (sum, a, i) => sum + a * row.reduce((inner, b, j) => inner + b * (covarianceUnscaled[i]?.[j] ?? 0), 0),
      0,
    );
  });
  return { variances, termCount: used.length };
}

/**
 * All holds of a run on one curve, η_V against S = µ n/Δp, once the fitted orifice and n Δp parts are given back. What
 * leaves the curve is air, filling, the relief valve or an instrument. Each hold is held against the scatter of the others
 * (its externally studentised residual), so that a wrong hold does not hide in a scatter that it made itself; where the
 * others scatter less than their readings do, the readings' scatter counts.
 *
 * @param fit - fitted law [-]
 * @param holds - of the run, those left out of the fit too [n holds]
 * @returns points by S, the curve, and the limit beyond which one sound run in a hundred shows a hold [1]
 *
 * Source: view by Wilson (1946); t_i = r_i/(s_(i) √(1 − h_i)) by Cook and Weisberg (1982), Residuals and Influence in
 * Regression, 2.2; limit t at 1 − 0.01/(2 n), ν = n − p − 1 (Bonferroni).
 */
export function dimensionlessView(fit: SlipFit, holds: readonly HoldState[]): DimensionlessView {
  const { coefficients, terms } = fit;
  const isPlaced = (hold: HoldState): boolean => hold.differentialPressurePa.value > 0 && hold.speedRevPerS.value > 0;
  const fitted = holds.filter(({ leftOut }) => leftOut === null);
  const prediction = predictionVariances(holds, fitted, coefficients, terms);
  const judged = holds.map((hold, index) => {
    const residual = hold.inletFlowM3PerS.value - lawFlow(coefficients, certainPoint(hold));
    const isInFit = hold.leftOut === null;
    const own = residualVariance(hold, coefficients);
    const ofCurve = prediction?.variances[index] ?? 0;
    return { hold, residual, isInFit, variance: isInFit ? own - ofCurve : own + ofCurve };
  });
  const degreesOfFreedom = fitted.length - (prediction?.termCount ?? 0) - 1;
  const canTell = prediction !== null && degreesOfFreedom >= 1;
  const squareOf = ({ residual, variance }: (typeof judged)[number]): number =>
    variance > 0 ? residual ** 2 / variance : 0;
  const weightedSum = judged.reduce(
    (sum, { hold, residual, isInFit }) => (isInFit ? sum + residual ** 2 / residualVariance(hold, coefficients) : sum),
    0,
  );
  const limit = canTell ? coverageFactor(degreesOfFreedom, 1 - FALSE_ALARM_SHARE / holds.length) : null;
  const points = judged
    .filter(({ hold }) => isPlaced(hold))
    .map((entry): DimensionlessPoint => {
      const { hold, residual, isInFit, variance } = entry;
      const point = certainPoint(hold);
      const theoreticalM3PerS = coefficients.derivedCapacityM3PerRev * point.speedRevPerS;
      const speedNumber = (point.dynamicViscosityPaS * point.speedRevPerS) / point.differentialPressurePa;
      const slipNumber = coefficients.laminarSlipM3 / coefficients.derivedCapacityM3PerRev;
      const othersScale = isInFit
        ? (weightedSum - squareOf(entry)) / degreesOfFreedom
        : weightedSum / (degreesOfFreedom + 1);
      const scale = Math.sqrt(Math.max(1, othersScale));
      const deviation = canTell && variance > 0 ? residual / (scale * Math.sqrt(variance)) : null;
      return {
        holdNumber: hold.number,
        speedNumber,
        measuredEfficiency: hold.inletFlowM3PerS.value / theoreticalM3PerS,
        correctedEfficiency: dimensionlessCurve(slipNumber, speedNumber) + residual / theoreticalM3PerS,
        deviation,
        leavesCurve: deviation !== null && limit !== null && Math.abs(deviation) > limit,
        isInFit,
      };
    })
    .sort((a, b) => a.speedNumber - b.speedNumber);
  return {
    points,
    slipNumber: coefficients.laminarSlipM3 / coefficients.derivedCapacityM3PerRev,
    limit,
    withoutPlace: holds.filter((hold) => !isPlaced(hold)).map(({ number }) => number),
  };
}
