import { no, type Outcome, yes } from '../outcome.ts';
import type { LawTerm, SlipFitRefusal } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { admissibleTerms, termSubsets } from './admissibleTerms.ts';
import { flowResidual } from './flowResidual.ts';
import { type LeastSquaresFit, weightedLeastSquares } from './leastSquares.ts';
import { type Coefficients, certainPoint, lawRegressors } from './slipLaw.ts';

/** The fitted law before it is stated: coefficients, their sensitivities, and the sources that the fit added. */
export type SlipFit = {
  readonly coefficients: Readonly<Record<LawTerm, number>>;
  readonly uncertain: Readonly<Record<LawTerm, Uncertain>>;
  readonly terms: readonly LawTerm[];
  readonly sources: readonly Source[];
  readonly residualsM3PerS: readonly number[];
  readonly residualDegreesOfFreedom: number;
  readonly reducedChiSquare: number;
};

/** Least holds for the shortest law, V_i and one slip term, with one to spare. */
const LEAST_HOLDS = 3;

/** The pressure must vary by this share of its largest, and by this much: less cannot tell slip from capacity. */
const LEAST_PRESSURE_SPAN_SHARE = 0.25;
const LEAST_PRESSURE_SPAN_PA = 2e4;

const ZERO: Coefficients = {
  derivedCapacityM3PerRev: 0,
  laminarSlipM3: 0,
  orificeSlipM2: 0,
  speedPressureSlipM3PerPa: 0,
};

function fitTerms(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  weights: readonly number[],
): LeastSquaresFit | null {
  const design = holds.map((hold) => {
    const regressors = lawRegressors(certainPoint(hold));
    return terms.map((term) => regressors[term]);
  });
  const fit = weightedLeastSquares(
    design,
    holds.map((hold) => hold.flowM3PerS.value),
    weights,
  );
  return fit.ok ? fit.value : null;
}

function coefficientsOf(terms: readonly LawTerm[], fit: LeastSquaresFit): Coefficients {
  const coefficients: Record<LawTerm, number> = { ...ZERO };
  for (const [index, term] of terms.entries()) coefficients[term] = fit.coefficients[index] ?? 0;
  return coefficients;
}

/** Best fit whose slip coefficients are none of them negative: the active set of so few terms is found by trying all. */
function bestNonNegative(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  weights: readonly number[],
): Coefficients {
  let best: { readonly coefficients: Coefficients; readonly sumOfSquares: number } | null = null;
  for (const subset of termSubsets(terms)) {
    const fit = fitTerms(holds, subset, weights);
    if (fit === null) continue;
    const coefficients = coefficientsOf(subset, fit);
    const isAdmissible = subset.slice(1).every((term) => coefficients[term] >= 0);
    if (isAdmissible && (best === null || fit.weightedResidualSumOfSquares < best.sumOfSquares)) {
      best = { coefficients, sumOfSquares: fit.weightedResidualSumOfSquares };
    }
  }
  return best?.coefficients ?? ZERO;
}

/** Variance of a residual from the scatter within its own hold alone [(m³/s)²]. */
function scatterVariance(hold: HoldState, residual: Uncertain): number {
  return hold.sources.reduce((sum, source) => {
    const contribution = (residual.sensitivities[source.id] ?? 0) * source.standardUncertainty;
    return sum + contribution ** 2;
  }, 0);
}

/**
 * The variance between holds that brings the weighted residuals to their degrees of freedom: none where the scatter
 * within the holds explains them. Source: Paule and Mandel (1982), J. Res. NBS 87, 377-385.
 */
function varianceBetweenHolds(
  holds: readonly HoldState[],
  terms: readonly LawTerm[],
  within: readonly number[],
): number {
  const excess = (between: number): number => {
    const fit = fitTerms(
      holds,
      terms,
      within.map((variance) => 1 / (variance + between)),
    );
    return fit === null ? 0 : fit.weightedResidualSumOfSquares - fit.degreesOfFreedom;
  };
  if (excess(0) <= 0) return 0;
  let low = 0;
  let high = Math.max(...within);
  while (excess(high) > 0) high *= 4;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (excess(middle) > 0) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

function inBar(differencePa: number): string {
  return differenceFrom(differencePa, unitOf('bar(a)')).toFixed(2);
}

function refusalBeforeFit(holds: readonly HoldState[]): SlipFitRefusal | null {
  if (holds.length === 0) {
    return {
      code: 'NO_HOLDS',
      text: 'No hold was found: nothing stood still long enough to be averaged. Hold each set point until all channels are steady, then a few seconds more.',
    };
  }
  if (holds.length < LEAST_HOLDS) {
    return {
      code: 'TOO_FEW_HOLDS',
      got: holds.length,
      needed: LEAST_HOLDS,
      text: `Only ${holds.length} of the ${LEAST_HOLDS} holds that a slip law needs at the least. Add holds at other pressures.`,
    };
  }
  const pressures = holds.map((hold) => hold.differentialPressurePa.value);
  const spanPa = Math.max(...pressures) - Math.min(...pressures);
  const neededPa = Math.max(LEAST_PRESSURE_SPAN_PA, LEAST_PRESSURE_SPAN_SHARE * Math.max(...pressures));
  if (spanPa < neededPa) {
    return {
      code: 'PRESSURE_NOT_VARIED',
      spanPa,
      neededPa,
      text: `The pressure difference was varied by ${inBar(spanPa)} bar; telling slip from capacity takes ${inBar(neededPa)} bar or more. Add holds at low and at high pressure.`,
    };
  }
  return null;
}

/**
 * Fits the slip law q = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp to holds by weighted least squares, slip
 * coefficients not negative. Every coefficient keeps its sensitivity to every source, propagated through the whole
 * fit: calibration errors are common to all holds and do not average out.
 *
 * @param holds - averaged holds, in any order [n holds]
 * @returns coefficients in SI and their sensitivities from the full admissible model, or the reason there are none [-]
 *
 * Source: linear least squares with errors in all quantities by first-order propagation, JCGM 100:2008, 5.1 and
 * JCGM 102:2011, 6.2; the law: Wilson (1946), Schlösser (1961). With θ = A q, ∂θ/∂s = A ∂(q − f)/∂s at the fit.
 */
export function fitSlip(holds: readonly HoldState[]): Outcome<SlipFit, SlipFitRefusal> {
  const refusal = refusalBeforeFit(holds);
  if (refusal !== null) return no(refusal);

  const terms = admissibleTerms(holds);
  let within: readonly number[] = holds.map(() => 1);
  let weights: readonly number[] = within;
  let between = 0;
  let coefficients = bestNonNegative(holds, terms, weights);
  // The weights depend on the coefficients through V_i u(n); three rounds settle them to all digits that matter.
  for (let round = 0; round < 3; round += 1) {
    const present = coefficients;
    within = holds.map((hold) => scatterVariance(hold, flowResidual(hold, present)));
    // Readings without any scatter would have infinite weight: a millionth of the flow is nobody's resolution.
    within = within.map((variance, index) =>
      Math.max(variance, (1e-6 * (holds[index]?.flowM3PerS.value ?? 0)) ** 2, 1e-24),
    );
    between = varianceBetweenHolds(holds, terms, within);
    weights = within.map((variance) => 1 / (variance + between));
    coefficients = bestNonNegative(holds, terms, weights);
  }

  const full = fitTerms(holds, terms, weights);
  if (full === null) {
    return no({
      code: 'TERMS_NOT_SEPARABLE',
      text: 'The holds lie so that capacity and slip cannot be told apart. Vary pressure and speed independently.',
    });
  }
  if (coefficients.derivedCapacityM3PerRev <= 0) {
    return no({
      code: 'NOT_PHYSICAL',
      text: `The fitted capacity is ${differenceFrom(coefficients.derivedCapacityM3PerRev, unitOf('cm3/rev')).toFixed(3)} cm³/rev: flow does not rise with speed. Look at the flow channel and the direction of rotation.`,
    });
  }

  const scatterSources = holds.map(
    (hold): Source => ({
      id: `hold.${hold.number}.fit`,
      label: 'scatter of the holds about the law',
      kind: 'random',
      standardUncertainty: Math.sqrt(between),
      degreesOfFreedom: full.degreesOfFreedom,
      shape: 'normal',
      pooledAs: 'fit.scatter',
    }),
  );
  const residuals = holds.map((hold): Uncertain => {
    const residual = flowResidual(hold, coefficients);
    return { value: residual.value, sensitivities: { ...residual.sensitivities, [`hold.${hold.number}.fit`]: 1 } };
  });
  const uncertainOf = (term: LawTerm): Uncertain => {
    const row = full.pseudoInverse[terms.indexOf(term)];
    return combine(
      coefficients[term],
      row === undefined ? [] : residuals.map((input, index) => ({ input, derivative: row[index] ?? 0 })),
    );
  };
  const chiSquare = residuals.reduce((sum, { value }, index) => sum + value ** 2 / (within[index] ?? 1), 0);
  return yes({
    coefficients,
    uncertain: {
      derivedCapacityM3PerRev: uncertainOf('derivedCapacityM3PerRev'),
      laminarSlipM3: uncertainOf('laminarSlipM3'),
      orificeSlipM2: uncertainOf('orificeSlipM2'),
      speedPressureSlipM3PerPa: uncertainOf('speedPressureSlipM3PerPa'),
    },
    terms,
    sources: scatterSources,
    residualsM3PerS: residuals.map(({ value }) => value),
    residualDegreesOfFreedom: full.degreesOfFreedom,
    reducedChiSquare: chiSquare / full.degreesOfFreedom,
  });
}
