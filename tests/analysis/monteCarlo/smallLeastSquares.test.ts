import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { termSubsets } from '../../../analysis/delivery/admissibleTerms.ts';
import { weightedLeastSquares } from '../../../analysis/delivery/leastSquares.ts';
import { smallLeastSquares } from '../../../analysis/monteCarlo/smallLeastSquares.ts';
import { LAW_TERMS } from '../../../analysis/result.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal, uniform } from '../../support/random.ts';

/** Thirteen rows like those of a run, in SI: n, −Δp/µ, −√(2Δp/ρ), −n Δp. */
function lawRows(seed: number): number[][] {
  const next = uniform(seed);
  return [15, 9, 18.75]
    .flatMap((n) => [0.6e5, 1.8e5, 3e5, 3.9e5].map((dp) => ({ n, dp })))
    .concat({ n: 15, dp: 0.6e5 })
    .map(({ n, dp }) => {
      const mu = 0.04 * (1 + 0.1 * next());
      return [n, -dp / mu, -Math.sqrt((2 * dp) / 860), -n * dp];
    });
}

function solved(rows: readonly (readonly number[])[], response: readonly number[], weights: readonly number[]) {
  const solver = smallLeastSquares(rows.length, rows[0]?.length ?? 0, weights);
  solver.design.set(rows.flat());
  solver.response.set(response);
  return { isSolved: solver.solve(), solution: [...solver.solution] };
}

describe('the small solver', () => {
  it('gives what Householder QR gives where nothing is held at zero (seeds 1 to 5)', () => {
    for (let seed = 1; seed <= 5; seed += 1) {
      const rows = lawRows(seed);
      const nextNormal = normal(seed);
      const truth = [13.9e-6, 2.2e-12, 5e-8, 4e-13];
      const weights = rows.map((_, index) => (1 + index / 10) * 4e14);
      const response = rows.map(
        (row) => row.reduce((sum, entry, index) => sum + entry * (truth[index] ?? 0), 0) + 1e-9 * nextNormal(),
      );
      const exact = weightedLeastSquares(rows, response, weights);
      if (!exact.ok) throw new Error(exact.reason.code);
      const { isSolved, solution } = solved(rows, response, weights);
      expect(isSolved).toBe(true);
      for (const [index, coefficient] of exact.value.coefficients.entries()) {
        expectRelative(solution[index] ?? Number.NaN, coefficient, 1e-7);
      }
    }
  });

  it('gives the best admissible fit of all choices of terms, found by QR (seed 61)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e6 }), fc.constantFrom(3e-8, 3e-7, 3e-6), (seed, scatter) => {
        const rows = lawRows(seed);
        const nextNormal = normal(seed);
        const response = rows.map(([n = 0, r = 0]) => 13.9e-6 * n + 2.2e-12 * r + scatter * nextNormal());
        const weights = rows.map(() => 1 / scatter ** 2);
        let best = Number.POSITIVE_INFINITY;
        for (const subset of termSubsets(LAW_TERMS)) {
          const columns = subset.map((term) => LAW_TERMS.indexOf(term));
          const fit = weightedLeastSquares(
            rows.map((row) => columns.map((column) => row[column] ?? 0)),
            response,
            weights,
          );
          if (!fit.ok || fit.value.coefficients.slice(1).some((coefficient) => coefficient < 0)) continue;
          best = Math.min(best, fit.value.weightedResidualSumOfSquares);
        }
        const { solution } = solved(rows, response, weights);
        expect(solution.slice(1).every((coefficient) => coefficient >= 0)).toBe(true);
        const left = rows.reduce((sum, row, index) => {
          const fitted = row.reduce((total, entry, column) => total + entry * (solution[column] ?? 0), 0);
          return sum + ((response[index] ?? 0) - fitted) ** 2 * (weights[index] ?? 0);
        }, 0);
        expectRelative(left, best, 1e-6);
      }),
      { seed: 61, numRuns: 100 },
    );
  });

  it('leaves out a column that repeats another, and says when nothing is left', () => {
    // By hand: y = 2 a, and b = a; a alone explains it.
    const rows = [1, 2, 3, 4].map((a) => [a, a]);
    const repeated = solved(rows, [2, 4, 6, 8], [1, 1, 1, 1]);
    expectRelative(repeated.solution[0] ?? Number.NaN, 2, 1e-12);
    expect(repeated.solution[1]).toBe(0);
    const nothing = solved(
      rows.map(() => [0, 0]),
      [1, 1, 1, 1],
      [1, 1, 1, 1],
    );
    expect(nothing).toEqual({ isSolved: false, solution: [0, 0] });
  });

  it('is for a handful of columns and for more rows than columns', () => {
    expect(() => smallLeastSquares(9, 5, [])).toThrow(RangeError);
    expect(() => smallLeastSquares(3, 3, [])).toThrow(RangeError);
  });
});
