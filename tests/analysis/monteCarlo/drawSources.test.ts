import { describe, expect, it } from 'vitest';
import { drawSources } from '../../../analysis/monteCarlo/drawSources.ts';
import { seededUniform } from '../../../analysis/monteCarlo/seededUniform.ts';
import { compareIntervals, trialSummary } from '../../../analysis/monteCarlo/trialSummary.ts';
import { normalQuantile } from '../../../analysis/uncertainty/normal.ts';
import type { Source } from '../../../analysis/uncertainty/source.ts';
import { studentTQuantile } from '../../../analysis/uncertainty/studentT.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function source(id: string, change: Partial<Source> = {}): Source {
  return {
    id,
    label: id,
    kind: 'calibration',
    standardUncertainty: 1,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
    ...change,
  };
}

/** Trials of a model of the errors. */
function trialsOf(
  sources: readonly Source[],
  model: (errors: Float64Array) => number,
  trials: number,
  seed: number,
): Float64Array {
  const draw = drawSources(sources, seededUniform(seed));
  const errors = new Float64Array(sources.length);
  return Float64Array.from({ length: trials }, () => {
    draw(errors);
    return model(errors);
  });
}

const sum = (errors: Float64Array): number => errors.reduce((total, error) => total + error, 0);

/** How many of M trials may lie below a true quantile p: M p ± 3.29 √(M p (1 − p)), 99.9 % of runs. */
function expectQuantile(values: Float64Array, quantile: number, probability: number): void {
  const below = values.filter((value) => value < quantile).length;
  const expected = values.length * probability;
  const reach = 3.29 * Math.sqrt(expected * (1 - probability));
  expect(Math.abs(below - expected), `${below} below, expected ${expected}`).toBeLessThanOrEqual(reach);
}

describe('trials of sources', () => {
  it('give the interval of four rectangular errors (200,000 trials, seed 11)', () => {
    // JCGM 101:2008, 9.2.3: u = 2.00, 95 % interval [−3.88, 3.88]; by propagation [−3.92, 3.92].
    const four = ['a', 'b', 'c', 'd'].map((id) => source(id, { shape: 'rectangular' }));
    const summary = trialSummary(trialsOf(four, sum, 200_000, 11));
    expectRelative(summary.standardDeviation, 2, 0.005);
    for (const interval of [summary.symmetricInterval, summary.shortestInterval]) {
      expect(Math.abs(interval[0] + 3.88)).toBeLessThan(0.04);
      expect(Math.abs(interval[1] - 3.88)).toBeLessThan(0.04);
    }
    const stated = { value: 0, standardUncertainty: 2, expandedUncertainty: 3.92 };
    expect(compareIntervals(stated, summary).agrees).toBe(true);
  });

  it('give the interval that one dominant rectangular error makes, which propagation misses (200,000 trials, seed 12)', () => {
    // JCGM 101:2008, 9.2.4: u = 10.1, 95 % interval [−17.0, 17.0]; by propagation [−19.9, 19.9].
    const sources = [1, 1, 1, 10].map((standardUncertainty, index) =>
      source(`${index}`, { shape: 'rectangular', standardUncertainty }),
    );
    const summary = trialSummary(trialsOf(sources, sum, 200_000, 12));
    expectRelative(summary.standardDeviation, Math.sqrt(103), 0.005);
    expect(Math.abs(summary.symmetricInterval[0] + 17)).toBeLessThan(0.1);
    expect(Math.abs(summary.symmetricInterval[1] - 17)).toBeLessThan(0.1);
    const stated = { value: 0, standardUncertainty: Math.sqrt(103), expandedUncertainty: 1.96 * Math.sqrt(103) };
    const comparison = compareIntervals(stated, summary);
    // With u = 1·10¹ in one digit δ = 5 by the rule itself, which 2.9 does not exceed; the interval is contained.
    expect(comparison.tolerance).toBe(5);
    expect(comparison.contains).toBe(true);
  });

  it('give the product model of volumetric efficiency (100,000 trials, seed 13)', () => {
    // η = Q/(V n), Q = 28.00 (0.14) l/min, V = 19.95 (0.05) cm³, n = 1500 (1.5) r/min: by JCGM 100:2008, 5.1.6,
    // 0.935672515 · √((0.14/28)² + (0.05/19.95)² + (1.5/1500)²) = 0.005316.
    const sources = [source('q', { standardUncertainty: 0.14 }), source('v', { standardUncertainty: 0.05 })].concat(
      source('n', { standardUncertainty: 1.5 }),
    );
    const model = ([q = 0, v = 0, n = 0]: Float64Array): number => (1e3 * (28 + q)) / ((19.95 + v) * (1500 + n));
    const summary = trialSummary(trialsOf(sources, model, 100_000, 13));
    expectRelative(summary.mean, 0.935672515, 1e-4);
    expectRelative(summary.standardDeviation, 0.005316182, 0.01);
  });

  it('follow the normal and the scaled t distribution at their quantiles (40,000 trials each, seeds 21 to 24)', () => {
    const normal = trialsOf([source('x', { standardUncertainty: 2 })], sum, 40_000, 21);
    for (const p of [0.025, 0.5, 0.9]) expectQuantile(normal, 2 * normalQuantile(p), p);
    for (const [index, degreesOfFreedom] of [1.3, 4, 30.5].entries()) {
      const t = trialsOf([source('x', { standardUncertainty: 2, degreesOfFreedom })], sum, 40_000, 22 + index);
      // JCGM 101:2008, 6.4.9: the t distribution with ν degrees of freedom scaled by the standard uncertainty.
      for (const p of [0.025, 0.25, 0.9]) expectQuantile(t, 2 * studentTQuantile(p, degreesOfFreedom), p);
    }
  });

  it('stretch sources of one common estimate together (40,000 trials, seed 25)', () => {
    // Of two such errors with ν = 4 the sum over √2 is t with ν = 4 again; drawn apart, it would be narrower.
    const pair = ['a', 'b'].map((id) => source(id, { degreesOfFreedom: 4, pooledAs: 'common' }));
    const scaled = trialsOf(pair, (errors) => sum(errors) / Math.SQRT2, 40_000, 25);
    for (const p of [0.005, 0.025, 0.975]) expectQuantile(scaled, studentTQuantile(p, 4), p);
  });

  it('count trials within the interval as the standard does', () => {
    // By hand: 1 to 1000, q = 950, r = 25: 25 values lie below the low end and 24 above the high end.
    const summary = trialSummary(Float64Array.from({ length: 1000 }, (_, index) => index + 1));
    expect(summary.symmetricInterval).toEqual([26, 976]);
    expectRelative(summary.mean, 500.5, 1e-12);
    // Σ (k − 500.5)²/999 = 1000 · (1000² − 1)/12/999.
    expectRelative(summary.standardDeviation, Math.sqrt((1000 * (1000 ** 2 - 1)) / 12 / 999), 1e-12);
  });

  it('find the shortest interval of a lopsided distribution at its low end (50,000 trials, seed 26)', () => {
    // x² of a normal x: the density falls from zero on, so that the shortest 95 % interval begins at zero and ends at 1.96².
    const squares = trialsOf([source('x')], ([x = 0]) => x * x, 50_000, 26);
    const { shortestInterval } = trialSummary(squares);
    expect(shortestInterval[0]).toBeLessThan(1e-3);
    expectRelative(shortestInterval[1], 1.959963985 ** 2, 0.03);
  });

  it('are refused when there are too few, or one is no number', () => {
    expect(() => trialSummary(new Float64Array(999))).toThrow(RangeError);
    expect(() => trialSummary(new Float64Array(1000).fill(Number.NaN))).toThrow(RangeError);
  });
});
