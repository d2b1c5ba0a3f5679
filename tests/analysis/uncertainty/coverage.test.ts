import { describe, expect, it } from 'vitest';
import { coverageFactorFor } from '../../../analysis/uncertainty/coverage.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { coverageFactor } from '../../../analysis/uncertainty/studentT.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal, uniform } from '../../support/random.ts';

describe('the coverage factor where a rectangular error dominates', () => {
  it('is 0.95 √3 where there is nothing else, and that of t where there is no rectangular error', () => {
    // P(|X| ≤ k u) = k u/a with a = √3 u; EA-4/02 has k = 1.65 (from memory).
    expectRelative(coverageFactorFor(null, 1), 0.95 * Math.sqrt(3), 1e-8);
    expectRelative(coverageFactorFor(null, 0), 1.959963985, 1e-9);
    expect(coverageFactorFor(7, 0)).toBe(coverageFactor(7));
  });

  it('is a little above the exact one of two equal rectangles, whose second it takes as normal', () => {
    // Triangular, half width 2a: 1 − (1 − x/2a)² = 0.95, x = 2a (1 − √0.05), u = a √(2/3).
    const exact = (2 * (1 - Math.sqrt(0.05))) / Math.sqrt(2 / 3);
    const k = coverageFactorFor(null, 0.5);
    expect(k).toBeGreaterThan(exact);
    expectRelative(k, exact, 0.01);
  });

  it.each([0.3, 0.6, 0.9, 0.98])('holds 95 %% of drawn errors with a rectangular share of %d (seed 4711)', (share) => {
    const [nextUniform, nextNormal] = [uniform(4711), normal(4712)];
    const k = coverageFactorFor(null, share);
    const draws = 200_000;
    let held = 0;
    for (let draw = 0; draw < draws; draw += 1) {
      const error = Math.sqrt(3 * share) * (2 * nextUniform() - 1) + Math.sqrt(1 - share) * nextNormal();
      if (Math.abs(error) <= k) held += 1;
    }
    // √(0.95 · 0.05/200 000) = 0.00049; four of them.
    expect(Math.abs(held / draws - 0.95)).toBeLessThan(0.002);
  });

  it('is asked for by the largest single rectangular source of a value', () => {
    const source = { kind: 'calibration', standardUncertainty: 1, degreesOfFreedom: null, pooledAs: null } as const;
    const sources = {
      wide: { ...source, id: 'wide', label: 'wide', shape: 'rectangular' },
      fine: { ...source, id: 'fine', label: 'fine', shape: 'normal' },
    } as const;
    const stated = stateUncertainty({ value: 5, sensitivities: { wide: 3, fine: 1 } }, sources);
    expect(stated.coverageFactor).toBe(coverageFactorFor(null, 0.9));
    expect(stated.coverageFactor).toBeLessThan(1.8);
  });
});
