import { combine, type Uncertain } from '../../uncertainty/source.ts';
import { coverageFactor } from '../../uncertainty/studentT.ts';
import type { DryPumpFit } from './dryPumpFit.ts';

/** Something that follows from the parameters of a fit; finite for all that a start can have. */
export type OfParameters = (parameters: readonly number[]) => number;

/** An interval of 95 % that need not lie evenly about its value. */
export type Interval = { readonly value: number; readonly lower: number; readonly upper: number };

/** Between two points of the profile it is read in so many places. */
const READINGS_BETWEEN = 12;

function gradientOf(fit: DryPumpFit, of: OfParameters, at: readonly number[]): readonly number[] {
  return fit.search.space.unknowns.map(({ step, acts }, index) => {
    if (acts === 'on readings') return 0;
    const moved = (by: number): number => of(at.map((value, other) => (other === index ? value + by : value)));
    return (moved(step) - moved(-step)) / (2 * step);
  });
}

function quadratic(matrix: readonly (readonly number[])[], vector: readonly number[]): number {
  let sum = 0;
  for (const [row, left] of vector.entries()) {
    if (left === 0) continue;
    for (const [column, right] of vector.entries()) sum += left * right * (matrix[row]?.[column] ?? Number.NaN);
  }
  return sum;
}

/**
 * Standard deviation of a function of the fitted parameters, straight through their covariance.
 *
 * @param fit - of a dry pump [-]
 * @param of - what is wanted [any unit]
 * @returns its standard deviation [unit of the function]
 */
export function deviationOf(fit: DryPumpFit, of: OfParameters): number {
  return Math.sqrt(quadratic(fit.search.covariance, gradientOf(fit, of, fit.search.parameters)));
}

/**
 * A function of the fitted parameters with its sensitivities to every source: f(θ̂), ∂f/∂s = Σ ∂f/∂θ · ∂θ̂/∂s, θ̂ as linear
 * function of readings and expectations.
 *
 * @param fit - of a dry pump [-]
 * @param of - what is wanted [any unit]
 * @returns value with sensitivities [unit of the function]
 *
 * Source: JCGM 102:2011, 6.2; JCGM 100:2008, 5.1.
 */
export function uncertainOf(fit: DryPumpFit, of: OfParameters): Uncertain {
  const { space, parameters, pseudoInverse, readingCount } = fit.search;
  const gradient = gradientOf(fit, of, parameters);
  const rowCount = readingCount + space.unknowns.length;
  const weights = new Float64Array(rowCount);
  for (const [index, slope] of gradient.entries()) {
    if (slope === 0) continue;
    for (let row = 0; row < rowCount; row += 1) {
      weights[row] = (weights[row] ?? 0) + slope * (pseudoInverse[index]?.[row] ?? Number.NaN);
    }
  }
  const sensitivities: Record<string, number> = {};
  let row = 0;
  for (const { noiseSourceId, readingCount: count } of fit.noise) {
    let squares = 0;
    for (const end = row + count; row < end; row += 1) squares += (weights[row] ?? 0) ** 2;
    sensitivities[noiseSourceId] = Math.sqrt(squares);
  }
  for (const [index, { standardDeviation, perSource }] of space.unknowns.entries()) {
    const perExpectation = (weights[readingCount + index] ?? 0) / Math.max(standardDeviation, 1e-9);
    for (const [id, by] of Object.entries(perSource))
      sensitivities[id] = (sensitivities[id] ?? 0) + perExpectation * by;
  }
  return combine(of(parameters), [{ input: { value: 0, sensitivities }, derivative: 1 }]);
}

/**
 * Interval of a function of the fitted parameters from the profile of the leak-back: all values that some leak-back reaches
 * at a rise of the sum of squares of no more than k², f*(C) ± √(v (k² − ΔS(C))), v the variance that the other parameters
 * leave it at a given leak-back.
 *
 * @param fit - of a dry pump [-]
 * @param of - what is wanted, on a scale on which the other parameters act about straight [any unit]
 * @param options - `otherVariance`: of errors that are none of the fit's; `isDear`: differentiate at the best fit alone [-]
 * @returns value and interval of 95 % [unit of the function]
 *
 * Source: profile likelihood of a function of parameters, e.g. Pawitan, In All Likelihood (2001), 3.4; the split into leak-back
 * and the rest, about which it is straight, derived here.
 */
export function intervalOf(
  fit: DryPumpFit,
  of: OfParameters,
  options: { readonly otherVariance: number; readonly isDear: boolean } = { otherVariance: 0, isDear: false },
): Interval {
  const most = coverageFactor(Math.max(1, fit.search.readingCount - 2)) ** 2;
  const value = of(fit.search.parameters);
  let [lower, upper] = [value, value];
  const bestGradient = gradientOf(fit, of, fit.search.parameters);
  for (const { points, rise, conditionalCovariance } of fit.profile.slices) {
    if (rise > most) continue;
    const varianceAt = (gradient: readonly number[]): number =>
      quadratic(conditionalCovariance, gradient) + options.otherVariance;
    const seen = points.map(({ parameters, signedRoot }) => ({
      value: of(parameters),
      signedRoot,
      variance: varianceAt(options.isDear ? bestGradient : gradientOf(fit, of, parameters)),
    }));
    for (const [index, to] of seen.entries()) {
      const from = seen[index - 1] ?? to;
      for (let part = 1; part <= READINGS_BETWEEN; part += 1) {
        const between = (a: number, b: number): number => a + (part / READINGS_BETWEEN) * (b - a);
        const left = most - rise - between(from.signedRoot, to.signedRoot) ** 2;
        if (left < 0) continue;
        const half = Math.sqrt(Math.max(0, between(from.variance, to.variance)) * left);
        lower = Math.min(lower, between(from.value, to.value) - half);
        upper = Math.max(upper, between(from.value, to.value) + half);
      }
    }
  }
  return { value, lower, upper };
}

/** An interval on another scale that rises with the first. */
export function onScale({ value, lower, upper }: Interval, scale: (of: number) => number): Interval {
  return { value: scale(value), lower: scale(lower), upper: scale(upper) };
}
