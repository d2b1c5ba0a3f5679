import { describe, expect, it } from 'vitest';
import { fUpperTail } from '../../../analysis/delivery/fDistribution.ts';
import { studentTCdf } from '../../../analysis/uncertainty/studentT.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('fUpperTail', () => {
  it('meets the printed critical values', () => {
    // NIST/SEMATECH e-Handbook, 1.3.6.7.3 (F, from memory; printed to three decimals): at 5 % F(5, 10) = 3.326 and
    // F(3, 20) = 3.098, at 1 % F(4, 15) = 4.893.
    expectRelative(fUpperTail(3.326, 5, 10), 0.05, 3e-4);
    expectRelative(fUpperTail(3.098, 3, 20), 0.05, 5e-4);
    expectRelative(fUpperTail(4.893, 4, 15), 0.01, 5e-4);
  });

  it('becomes the chi-square where the variance is known', () => {
    // NIST/SEMATECH e-Handbook, 1.3.6.7.4 (from memory): at 5 % chi-square(1) = 3.841, chi-square(10) = 18.307.
    expectRelative(fUpperTail(3.841, 1, null), 0.05, 3e-4);
    expectRelative(fUpperTail(1.8307, 10, null), 0.05, 3e-4);
    // Closed form for two degrees of freedom: exp(−χ²/2).
    expectRelative(fUpperTail(4, 2, null), Math.exp(-4), 3e-5);
  });

  it('has its closed form at two degrees of freedom above', () => {
    // Integral of the density for ν₁ = 2: (1 + 2 F/ν₂)^(−ν₂/2).
    for (const below of [1, 2, 7.5, 40, 300]) {
      for (const ratio of [0.01, 0.5, 1, 3, 20]) {
        expectRelative(fUpperTail(ratio, 2, below), (1 + (2 * ratio) / below) ** (-below / 2), 1e-9);
      }
    }
  });

  it('is the square of Student’s t at one degree of freedom above', () => {
    // By definition F(1, ν) = t².
    for (const [t, below] of [
      [0.3, 5],
      [2.5, 11.5],
      [4, 60],
    ] as const) {
      expectRelative(fUpperTail(t * t, 1, below), 2 * studentTCdf(-t, below), 1e-9);
    }
  });

  it('is one at zero and refuses what is no variance ratio', () => {
    expect(fUpperTail(0, 3, 3)).toBe(1);
    expect(() => fUpperTail(-1, 3, 3)).toThrow(/fRatio/);
    expect(() => fUpperTail(1, 0, 3)).toThrow(/numerator/);
    expect(() => fUpperTail(1, 3, 0)).toThrow(/denominator/);
  });
});
