import { describe, expect, it } from 'vitest';
import { straightDrift } from '../../../analysis/steady/straightDrift.ts';
import { norris } from '../../reference/nist-norris.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';

function driftOf(values: readonly number[], stepS = 1) {
  const drift = straightDrift(
    Float64Array.from(values, (_, index) => index * stepS),
    Float64Array.from(values),
  );
  if (drift === null) throw new Error('no drift');
  return drift;
}

describe('straightDrift', () => {
  it('fits four points as by hand', () => {
    // By hand for 0, 1, 1, 2 at 0, 1, 2, 3 s: t̄ = 1.5, x̄ = 1, Σ(t − t̄)² = 5, Σ(t − t̄)(x − x̄) = 3, b = 0.6.
    // Residuals −0.1, 0.3, −0.3, 0.1: Σ = 0.2, no positive memory; s² = 0.2/2 = 0.1, u(b) = √(0.1/5).
    const { ratePerS, standardUncertainty } = driftOf([0, 1, 1, 2]);
    expectRelative(ratePerS, 0.6, 1e-12);
    expectRelative(standardUncertainty, Math.sqrt(0.02), 1e-12);
  });

  it('reproduces the certified slope of NIST', () => {
    // NIST Statistical Reference Datasets, linear regression: Norris, certified B1.
    const drift = straightDrift(
      Float64Array.from(norris.points, ({ x }) => x),
      Float64Array.from(norris.points, ({ y }) => y),
    );
    expectRelative(drift?.ratePerS ?? Number.NaN, 1.00211681802045, 1e-12);
  });

  it('shows none for fewer than four points or without time between them', () => {
    expect(straightDrift(Float64Array.of(0, 1, 2), Float64Array.of(0, 1, 2))).toBeNull();
    expect(straightDrift(new Float64Array(5), Float64Array.of(0, 1, 2, 3, 4))).toBeNull();
  });

  it('holds the true rate within its uncertainty, also where readings remember one another (seeds 1 to 400)', () => {
    // 95 % within 1.96 u for independent residuals; at 0.1 % the binomial region of 400 is 365 to 393. With a memory of 0.8 from
    // reading to reading the sum of autocorrelations is estimated low: 90 % is asked for, region from 341.
    for (const [memory, least] of [
      [0, 365],
      [0.8, 341],
    ] as const) {
      let heldCount = 0;
      for (let seed = 1; seed <= 400; seed += 1) {
        const noise = normal(seed);
        let last = noise() / Math.sqrt(1 - memory ** 2);
        const values = Array.from({ length: 500 }, (_, index) => {
          last = memory * last + noise();
          return 0.003 * index + last;
        });
        const { ratePerS, standardUncertainty } = driftOf(values);
        if (Math.abs(ratePerS - 0.003) <= 1.96 * standardUncertainty) heldCount += 1;
      }
      expect(heldCount).toBeGreaterThanOrEqual(least);
    }
  });
});
