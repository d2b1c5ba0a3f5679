import { no, type Outcome, yes } from '../outcome.ts';
import type { Finding, LawTerm, SlipFitRefusal } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { admissibleTerms } from './admissibleTerms.ts';
import { varianceBetweenHolds, type WithinScatter, withinScatter } from './betweenHolds.ts';
import { chooseTerms, type TermChoice } from './chooseTerms.ts';
import { flowResidual } from './flowResidual.ts';
import { type HoldInfluence, holdInfluences, holdStandingOut, type StandingOut } from './holdInfluence.ts';
import { type LackOfFit, lackOfFit } from './lackOfFit.ts';
import type { LeastSquaresFit } from './leastSquares.ts';
import { refuseHolds, requireUsableHolds } from './refuseHolds.ts';
import { type Coefficients, certainPoint, lawFlow } from './slipLaw.ts';
import { bestNonNegative, coefficientsOf, fitTerms, lawDesign } from './weightedLaw.ts';

/** The fitted law before it is stated: coefficients, their sensitivities, and the sources that the fit added. */
export type SlipFit = {
  /** Slip coefficients not negative. */
  readonly coefficients: Coefficients;
  /** The same with the sensitivities of the full admissible model, from which every interval comes. */
  readonly uncertain: Readonly<Record<LawTerm, Uncertain>>;
  /** Coefficients of the full model, signs free: a negative one beyond its uncertainty is no slip. */
  readonly unconstrained: Readonly<Record<LawTerm, Uncertain>>;
  /** Terms of the full admissible model, capacity first. */
  readonly terms: readonly LawTerm[];
  /** Terms that the set points could not tell apart, each with what would. */
  readonly merged: readonly Finding[];
  /** Which terms the holds demand; no interval comes from it. */
  readonly termChoice: TermChoice;
  readonly lackOfFit: LackOfFit;
  /** One entry a hold, in the order of the holds. */
  readonly influences: readonly HoldInfluence[];
  readonly standingOut: StandingOut | null;
  readonly sources: readonly Source[];
  /** Measured minus fitted inlet flow, in the order of the holds. */
  readonly residualsM3PerS: readonly number[];
  readonly residualDegreesOfFreedom: number;
  /** About the scatter within the holds; about 1 where it explains the residuals [1]. */
  readonly reducedChiSquare: number;
  /** τ: what the holds differ by beyond the scatter of their readings. */
  readonly betweenHoldsM3PerS: number;
  /** 1/(s² + τ²), in the order of the holds [s²/m⁶]. */
  readonly weights: readonly number[];
  /** Of the full model from s² + τ², in the order of `terms` [p × p]. */
  readonly covariance: readonly (readonly number[])[];
};

/**
 * Capacity counts as not told apart from slip when slip terms can mimic all but this share of its column and, besides,
 * its standard uncertainty from the scatter exceeds the share below [1]. Common practice, no source.
 */
const LEAST_OWN_SHARE = 0.1;
const MOST_CAPACITY_UNCERTAINTY = 0.05;

/** The weights depend on the coefficients through V_i u(n); three rounds settle them to all digits that matter. */
const WEIGHT_ROUNDS = 3;

type Weighting = {
  readonly coefficients: Coefficients;
  readonly within: readonly WithinScatter[];
  readonly between: number;
  readonly weights: readonly number[];
};

function weightingOf(holds: readonly HoldState[], terms: readonly LawTerm[]): Weighting {
  let weights: readonly number[] = holds.map(() => 1);
  let coefficients = bestNonNegative(holds, terms, weights);
  let within: readonly WithinScatter[] = [];
  let between = 0;
  for (let round = 0; round < WEIGHT_ROUNDS; round += 1) {
    const present = coefficients;
    within = holds.map((hold) => withinScatter(hold, flowResidual(hold, present)));
    const variances = within.map(({ variance }) => variance);
    between = varianceBetweenHolds(variances, (trial) => {
      const fit = fitTerms(holds, terms, trial);
      return fit === null ? null : { fit, residuals: plainResiduals(holds, coefficientsOf(terms, fit)) };
    });
    const added = between;
    weights = variances.map((variance) => 1 / (variance + added));
    coefficients = bestNonNegative(holds, terms, weights);
  }
  return { coefficients, within, between, weights };
}

function plainResiduals(holds: readonly HoldState[], coefficients: Coefficients): readonly number[] {
  return holds.map((hold) => hold.inletFlowM3PerS.value - lawFlow(coefficients, certainPoint(hold)));
}

/** Whether slip terms mimic the capacity so well that the scatter leaves it open. */
function isCapacityOpen(holds: readonly HoldState[], weights: readonly number[], full: LeastSquaresFit): boolean {
  const variance = full.covarianceUnscaled[0]?.[0] ?? 0;
  const length = holds.reduce((sum, hold, index) => sum + (weights[index] ?? 0) * hold.speedRevPerS.value ** 2, 0);
  const ownShare = 1 / Math.sqrt(variance * length);
  const relative = Math.sqrt(variance) / Math.abs(full.coefficients[0] ?? 0);
  return ownShare < LEAST_OWN_SHARE && relative > MOST_CAPACITY_UNCERTAINTY;
}

function refusalOfFit(capacityM3PerRev: number): SlipFitRefusal | null {
  if (capacityM3PerRev > 0) return null;
  return {
    code: 'NOT_PHYSICAL',
    text: `The fitted capacity is ${differenceFrom(capacityM3PerRev, unitOf('cm3/rev')).toFixed(3)} cm³/rev: flow does not rise with speed. Look at the flow channel and the direction of rotation.`,
  };
}

/**
 * Fits the slip law q₁ = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp, flow at the inlet, to holds by weighted least
 * squares, slip coefficients not negative. Every coefficient keeps its sensitivity to every source, propagated through
 * the whole fit of the full admissible model: calibration errors are common to all holds and do not average out.
 *
 * @param holds - averaged holds, none of them left out, in any order [n holds]
 * @returns coefficients in SI with their sensitivities, how well they fit, or the reason there are none [-]
 * @throws RangeError if a hold was left out of the fit or holds no number
 *
 * Source: linear least squares with errors in all quantities by first-order propagation, JCGM 100:2008, 5.1 and
 * JCGM 102:2011, 6.2; the law: Wilson (1946), Schlösser (1961). With θ = A q, ∂θ/∂s = A ∂(q − f)/∂s at the fit.
 */
export function fitSlip(holds: readonly HoldState[]): Outcome<SlipFit, SlipFitRefusal> {
  requireUsableHolds(holds);
  const { terms, merged } = admissibleTerms(holds);
  const refusal = refuseHolds(holds, terms);
  if (refusal !== null) return no(refusal);

  const { coefficients, within, between, weights } = weightingOf(holds, terms);
  const variances = within.map(({ variance }) => variance);
  const full = fitTerms(holds, terms, weights);
  const scatterFit = fitTerms(
    holds,
    terms,
    variances.map((variance) => 1 / variance),
  );
  if (full === null || scatterFit === null || isCapacityOpen(holds, weights, full)) {
    return no({
      code: 'TERMS_NOT_SEPARABLE',
      text: 'The holds lie so that capacity and slip cannot be told apart: pressure rose and fell together with speed. Add holds at low speed and high pressure, and at high speed and low pressure.',
    });
  }
  const notPhysical = refusalOfFit(coefficients.derivedCapacityM3PerRev);
  if (notPhysical !== null) return no(notPhysical);

  const sources = holds.map((hold) => scatterSource(hold, between, full.degreesOfFreedom));
  const residuals = holds.map((hold): Uncertain => {
    const residual = flowResidual(hold, coefficients);
    return { value: residual.value, sensitivities: { ...residual.sensitivities, [scatterSourceId(hold)]: 1 } };
  });
  const free = coefficientsOf(terms, full);
  const freeResiduals = plainResiduals(holds, free);
  const influences = holdInfluences(holds, lawDesign(holds, terms), weights, full);
  const chiSquare = residuals.reduce((sum, { value }, index) => sum + value ** 2 / (variances[index] ?? 1), 0);
  return yes({
    coefficients,
    uncertain: withSensitivities(coefficients, terms, full, residuals),
    unconstrained: withSensitivities(free, terms, full, residuals),
    terms,
    merged,
    termChoice: chooseTerms(holds, terms, variances),
    lackOfFit: lackOfFit(
      holds,
      within,
      scatterFit,
      freeResiduals.map((residual, index) => ({ residual, weight: weights[index] ?? 0 })),
      terms.length,
    ),
    influences,
    standingOut: holdStandingOut(influences, full.degreesOfFreedom),
    sources,
    residualsM3PerS: residuals.map(({ value }) => value),
    residualDegreesOfFreedom: full.degreesOfFreedom,
    reducedChiSquare: chiSquare / full.degreesOfFreedom,
    betweenHoldsM3PerS: Math.sqrt(between),
    weights,
    covariance: full.covarianceUnscaled,
  });
}

/** Id of the source that stands for what a hold differs from others by, beyond the scatter of its readings. */
export function scatterSourceId(hold: HoldState): string {
  return `hold.${hold.number}.fit`;
}

function scatterSource(hold: HoldState, between: number, degreesOfFreedom: number): Source {
  return {
    id: scatterSourceId(hold),
    label: 'scatter of the holds about the law',
    kind: 'random',
    standardUncertainty: Math.sqrt(between),
    degreesOfFreedom,
    shape: 'normal',
    pooledAs: 'fit.scatter',
  };
}

/** Coefficients with the sensitivities that the residuals hand on through the matrix of the full model. */
function withSensitivities(
  coefficients: Coefficients,
  terms: readonly LawTerm[],
  full: LeastSquaresFit,
  residuals: readonly Uncertain[],
): Readonly<Record<LawTerm, Uncertain>> {
  const uncertainOf = (term: LawTerm): Uncertain => {
    const row = full.pseudoInverse[terms.indexOf(term)];
    return combine(
      coefficients[term],
      row === undefined ? [] : residuals.map((input, index) => ({ input, derivative: row[index] ?? 0 })),
    );
  };
  return {
    derivedCapacityM3PerRev: uncertainOf('derivedCapacityM3PerRev'),
    laminarSlipM3: uncertainOf('laminarSlipM3'),
    orificeSlipM2: uncertainOf('orificeSlipM2'),
    speedPressureSlipM3PerPa: uncertainOf('speedPressureSlipM3PerPa'),
  };
}
