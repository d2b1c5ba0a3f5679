import { CholeskyDecomposition, Matrix } from 'ml-matrix';
import { weightedLeastSquares } from '../delivery/leastSquares.ts';
import { no, type Outcome, yes } from '../outcome.ts';

/** A curve is spoken this share of its points' span beyond them and no further; common practice, no source [1]. */
const REACH = 0.1;

/** Points of a calibration and the degree of the polynomial through them; raw as it comes over the line. */
export type CurvePoints = {
  readonly degree: number;
  readonly points: readonly { readonly raw: number; readonly reference: number }[];
};

/** A polynomial in x = (raw − centre)/halfSpan, so that the points lie within −1 … 1. */
export type CurveFit = {
  readonly centreRaw: number;
  readonly halfSpanRaw: number;
  /** Lowest power first [unit of the reference]. */
  readonly coefficients: readonly number[];
  /** Reference less curve, in the order of the points [unit of the reference]. */
  readonly residuals: readonly number[];
  /** √(Σ residual² / (n − p)) [unit of the reference]. */
  readonly residualStandardDeviation: number;
  /** n − p. */
  readonly degreesOfFreedom: number;
  /** L with L Lᵀ = (XᵀX)⁻¹, lower triangle [p × p]: independent directions of the coefficients' errors. */
  readonly errorDirections: readonly (readonly number[])[];
};

export type CurveRefusal =
  | { readonly code: 'CURVE_TOO_FEW_POINTS'; readonly got: number; readonly needed: number; readonly text: string }
  | { readonly code: 'CURVE_NOT_SPREAD'; readonly text: string }
  | { readonly code: 'CURVE_NOT_MONOTONE'; readonly text: string };

function powersOf(x: number, count: number): number[] {
  return Array.from({ length: count }, (_, power) => x ** power);
}

function dot(first: readonly number[], second: readonly number[]): number {
  return first.reduce((sum, value, index) => sum + value * (second[index] ?? Number.NaN), 0);
}

/** A derivative of at most second degree keeps its sign between two ends if it has that sign there and at its vertex. */
function isMonotone(coefficients: readonly number[]): boolean {
  const [, c1 = 0, c2 = 0, c3 = 0] = coefficients;
  const end = 1 + 2 * REACH;
  const vertex = c3 === 0 ? 0 : -c2 / (3 * c3);
  const places = Math.abs(vertex) < end ? [-end, vertex, end] : [-end, end];
  const slopes = places.map((x) => c1 + 2 * c2 * x + 3 * c3 * x ** 2);
  return slopes.every((slope) => slope > 0) || slopes.every((slope) => slope < 0);
}

/**
 * The curve of a calibration: a polynomial through its points by least squares, all points counting alike. The scatter about it
 * gives the errors of its coefficients; these are correlated, so they are stated along the columns of L, L Lᵀ = (XᵀX)⁻¹,
 * which are not: u²(curve at x) = s² φᵀ(XᵀX)⁻¹φ = s² |Lᵀφ|², φ = (1, x, x², …).
 *
 * @param curve - degree 1 to 3 and the points; the same raw value may come again, as in a series up and down [-]
 * @returns the fit with its residuals, or why there is none [unit of the reference]
 *
 * Source: JCGM 100:2008, H.3 (straight line); the factor L is derived here from the covariance.
 */
export function fitCurve(curve: CurvePoints): Outcome<CurveFit, CurveRefusal> {
  const { degree, points } = curve;
  const needed = degree + 2;
  if (points.length < needed) {
    return no({
      code: 'CURVE_TOO_FEW_POINTS',
      got: points.length,
      needed,
      text: `A curve of degree ${degree} through ${points.length} points leaves nothing to judge its fit by: calibrate at ${needed} points or more, or state a lower degree.`,
    });
  }
  const raws = points.map(({ raw }) => raw);
  const lowest = Math.min(...raws);
  const highest = Math.max(...raws);
  const centreRaw = (lowest + highest) / 2;
  const halfSpanRaw = (highest - lowest) / 2;
  const design = points.map(({ raw }) => powersOf((raw - centreRaw) / (halfSpanRaw || 1), degree + 1));
  const references = points.map(({ reference }) => reference);
  const fit = weightedLeastSquares(
    design,
    references,
    points.map(() => 1),
  );
  if (!fit.ok || new Set(raws).size <= degree) {
    return no({
      code: 'CURVE_NOT_SPREAD',
      text: `A curve of degree ${degree} needs points at ${degree + 1} different raw values; these stand at ${new Set(raws).size}. Spread them over the range.`,
    });
  }
  const { coefficients, covarianceUnscaled, weightedResidualSumOfSquares, degreesOfFreedom } = fit.value;
  if (!isMonotone(coefficients)) {
    return no({
      code: 'CURVE_NOT_MONOTONE',
      text: `The curve of degree ${degree} through these points turns back within its range, so that one raw value would stand for two: look for a mistyped point, or state a lower degree.`,
    });
  }
  return yes({
    centreRaw,
    halfSpanRaw,
    coefficients,
    residuals: design.map((row, index) => (references[index] ?? Number.NaN) - dot(row, coefficients)),
    residualStandardDeviation: Math.sqrt(weightedResidualSumOfSquares / degreesOfFreedom),
    degreesOfFreedom,
    errorDirections: new CholeskyDecomposition(
      new Matrix(covarianceUnscaled.map((row) => [...row])),
    ).lowerTriangularMatrix.to2DArray(),
  });
}

/**
 * The curve at a raw value.
 *
 * @param fit - from fitCurve [-]
 * @param raw - as it comes over the line [raw unit]
 * @returns what the curve makes of it [unit of the reference]
 */
export function curveAt(fit: CurveFit, raw: number): number {
  const x = (raw - fit.centreRaw) / fit.halfSpanRaw;
  // Horner, highest power first: this runs for every reading.
  return fit.coefficients.reduceRight((sum, coefficient) => sum * x + coefficient, 0);
}

/**
 * How far the curve moves at a raw value when its coefficients move along one of their independent directions: Lᵀφ.
 *
 * @param fit - from fitCurve [-]
 * @param raw - as it comes over the line [raw unit]
 * @returns one number a direction; times the residual standard deviation, their root sum of squares is the curve's standard uncertainty [1]
 *
 * Source: as fitCurve.
 */
export function curveErrorShares(fit: CurveFit, raw: number): readonly number[] {
  const powers = powersOf((raw - fit.centreRaw) / fit.halfSpanRaw, fit.coefficients.length);
  return powers.map((_, direction) =>
    dot(
      powers,
      fit.errorDirections.map((row) => row[direction] ?? Number.NaN),
    ),
  );
}

/**
 * Whether a raw value lies further beyond the calibration's points than the curve is spoken: a tenth of their span.
 *
 * @param fit - from fitCurve [-]
 * @param raw - as it comes over the line [raw unit]
 * @returns true beyond [-]
 */
export function isBeyondCurve(fit: CurveFit, raw: number): boolean {
  return Math.abs(raw - fit.centreRaw) > (1 + 2 * REACH) * fit.halfSpanRaw;
}

/**
 * The raw value that the curve turns into a given one, by halving the interval: the curve is monotone as far as it is spoken.
 *
 * @param fit - from fitCurve [-]
 * @param value - in the unit of the reference [unit of the reference]
 * @returns raw value; for a value that the curve does not reach, its nearer end [raw unit]
 */
export function rawAt(fit: CurveFit, value: number): number {
  const reachRaw = (1 + 2 * REACH) * fit.halfSpanRaw;
  const isRising = curveAt(fit, fit.centreRaw + reachRaw) > curveAt(fit, fit.centreRaw - reachRaw);
  let low = fit.centreRaw - reachRaw;
  let high = fit.centreRaw + reachRaw;
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (curveAt(fit, middle) < value === isRising) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}
