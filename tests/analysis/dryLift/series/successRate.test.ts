import { describe, expect, it } from 'vitest';
import { provenSuccessRate } from '../../../../analysis/dryLift/series/successRate.ts';

describe('the success rate that so many of so many starts prove', () => {
  it('is the exact bound of an example with four of twenty', () => {
    // NIST/SEMATECH e-Handbook 7.2.4.2, Clopper and Pearson, 90 % two-sided (so 95 % each side): 0.071354 to 0.401029
    // (figures from memory of that page, recomputed from its equations by bisection to 0.0713539 and 0.4010281).
    expect(provenSuccessRate(4, 20)).toBeCloseTo(0.071354, 6);
    expect(1 - provenSuccessRate(16, 20)).toBeCloseTo(0.401028, 6);
  });

  it('is alpha to the power 1/n where all succeeded: 55 %, 74 % and 90 % of 5, 10 and 29', () => {
    // 0.05^(1/5) = 0.549280, 0.05^(1/10) = 0.741134, 0.05^(1/29) = 0.901855: by hand.
    expect(provenSuccessRate(5, 5)).toBeCloseTo(0.54928, 6);
    expect(provenSuccessRate(10, 10)).toBeCloseTo(0.741134, 6);
    expect(provenSuccessRate(29, 29)).toBeCloseTo(0.901855, 6);
  });

  it('is that of one success where only one came, worked by hand', () => {
    // P(X ≥ 1) = 1 − (1 − p)³ = 0.05: p = 1 − 0.95^(1/3) = 0.0169524.
    expect(provenSuccessRate(1, 3)).toBeCloseTo(0.0169524, 7);
  });

  it('is nothing where none came, and rises with every success', () => {
    expect(provenSuccessRate(0, 7)).toBe(0);
    for (let k = 1; k <= 7; k += 1) expect(provenSuccessRate(k, 7)).toBeGreaterThan(provenSuccessRate(k - 1, 7));
  });

  it('is refused of numbers that cannot be', () => {
    for (const [k, n] of [
      [1, 0],
      [3, 2],
      [-1, 2],
      [0.5, 2],
    ] as const) {
      expect(() => provenSuccessRate(k, n)).toThrow(RangeError);
    }
  });
});
