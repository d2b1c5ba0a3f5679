import { describe, expect, it } from 'vitest';
import { hingeFit } from '../../../analysis/notSlip/hingeFit.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';

const hingeAt = (x: number): number => 1 - 0.1 * x - 2 * Math.max(0, x - 0.7);

describe('two straight lines that meet', () => {
  it('are found exactly where the points lie on them', () => {
    const points = Array.from({ length: 41 }, (_, index) => ({ x: index / 40, y: hingeAt(index / 40) }));
    const hinge = hingeFit(points);
    if (hinge === null) throw new Error('no hinge');
    // The lines that the points were made from.
    expectRelative(hinge.breakAt, 0.7, 1e-6);
    expectRelative(hinge.steepness, 2, 1e-6);
    expectRelative(hinge.slope, -0.1, 1e-5);
    expectRelative(hinge.atZero, 1, 1e-6);
  });

  it('hold the true break in their stated interval as often as stated, seeds 1 to 300', () => {
    let held = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const next = normal(seed);
      const points = Array.from({ length: 60 }, (_, index) => ({
        x: index / 60,
        y: hingeAt(index / 60) + 0.01 * next(),
      }));
      const hinge = hingeFit(points);
      // t(0.975, 56) = 2.003, any table of Student's t.
      if (hinge !== null && Math.abs(hinge.breakAt - 0.7) <= 2.003 * hinge.breakAtStandardUncertainty) held += 1;
    }
    // Binomial sums for 300 draws at p = 0.95: P(X < 270) = 1.3e-4, P(X > 297) = 2.9e-5.
    expect(held).toBeGreaterThanOrEqual(270);
    expect(held).toBeLessThanOrEqual(297);
  });

  it('are not to be had from fewer than four points a side', () => {
    expect(hingeFit([0, 1, 2, 3, 4, 5, 6].map((x) => ({ x, y: hingeAt(x) })))).toBeNull();
    expect(hingeFit([])).toBeNull();
  });
});
