import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalQuantile } from '../../../analysis/uncertainty/normal.ts';
import { coverageFactor, studentTCdf, studentTQuantile } from '../../../analysis/uncertainty/studentT.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('studentTCdf', () => {
  it('follows the closed forms for one, two and four degrees of freedom', () => {
    // Abramowitz and Stegun (1964), 26.7.3 and 26.7.4, written out for ν = 1, 2, 4.
    for (const t of [-30, -2.5, -0.3, 0, 0.7, 1, 4, 12]) {
      expectRelative(studentTCdf(t, 1), 0.5 + Math.atan(t) / Math.PI, 1e-12);
      expectRelative(studentTCdf(t, 2), 0.5 + t / (2 * Math.sqrt(2 + t * t)), 1e-12);
      const sine = t / Math.sqrt(4 + t * t);
      expectRelative(studentTCdf(t, 4), 0.5 + (sine * (1 + (1 - sine * sine) / 2)) / 2, 1e-11);
    }
  });

  it('takes degrees of freedom that are not whole', () => {
    // Incomplete beta function at 40 digits, mpmath 1.x: 1 − I_x(1.85, 1/2)/2 with x = 3.7/(3.7 + 2.5²).
    expectRelative(studentTCdf(2.5, 3.7), 0.9640889885440866, 1e-12);
  });

  it('keeps its digits in the tails and on both sides of the change of method', () => {
    // Incomplete beta function at 50 digits, mpmath 1.x.
    const published: readonly (readonly [number, number, number])[] = [
      [0.5, 6, 0.1306546887349994],
      [29.9, 2.5, 0.009067975749542571],
      [999, 1.8, 0.03608112055024007],
      [1001, 1.8, 0.03608081922150494],
      [5000, 6, 1.0560481416526935e-9],
    ];
    for (const [degreesOfFreedom, t, tail] of published) expectRelative(studentTCdf(-t, degreesOfFreedom), tail, 1e-12);
  });

  it('refuses degrees of freedom that are none', () => {
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => studentTCdf(1, bad)).toThrow(RangeError);
    }
  });
});

describe('studentTQuantile', () => {
  it('turns the distribution function back (seed 41)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        fc.double({ min: 0.8, max: 500, noNaN: true }),
        (probability, degreesOfFreedom) => {
          const t = studentTQuantile(probability, degreesOfFreedom);
          expectRelative(studentTCdf(t, degreesOfFreedom), probability, 1e-10);
        },
      ),
      { seed: 41, numRuns: 200 },
    );
  });

  it('becomes the normal quantile for many degrees of freedom, however many', () => {
    // Abramowitz and Stegun (1964), 26.7.5: t = x + (x³ + x)/(4 ν) + …; from ν = 1e6 the next term is below 1e-11.
    // Effective degrees of freedom grow without bound where the random part is small.
    const x = normalQuantile(0.975);
    for (const degreesOfFreedom of [1e6, 1e8, 1e12, 1e15, 1e20, 1e100]) {
      expectRelative(studentTQuantile(0.975, degreesOfFreedom), x + (x ** 3 + x) / (4 * degreesOfFreedom), 1e-11);
    }
  });

  it('refuses a probability that is none', () => {
    for (const bad of [0, 1, -0.1, 1.1, Number.NaN]) expect(() => studentTQuantile(bad, 5)).toThrow(RangeError);
  });
});

describe('coverageFactor', () => {
  it('gives the factors of the guide for 95 %', () => {
    // JCGM 100:2008, table G.2 (12.71, 4.30, 2.78, 2.26, 2.23, 2.09, 2.04, 2.01), recomputed at 30 digits.
    const published: readonly (readonly [number, number])[] = [
      [1, 12.7062047],
      [2, 4.30265273],
      [4, 2.77644511],
      [9, 2.26215716],
      [10, 2.22813885],
      [19, 2.09302405],
      [30, 2.04227246],
      [50, 2.00855911],
    ];
    for (const [degreesOfFreedom, factor] of published) {
      expect(Math.abs(coverageFactor(degreesOfFreedom) - factor)).toBeLessThan(1e-7);
    }
  });

  it('gives the factors of the guide for 95.45 % and 99 %', () => {
    // JCGM 100:2008, table G.2 (13.97, 2.87, 2.32, 2.17, 2.05; 4.60, 2.92, 2.68), recomputed at 30 digits.
    const published: readonly (readonly [number, number, number])[] = [
      [0.9545, 1, 13.9678115],
      [0.9545, 4, 2.86931517],
      [0.9545, 9, 2.31980944],
      [0.9545, 16, 2.168943],
      [0.9545, 50, 2.05125078],
      [0.99, 4, 4.60409487],
      [0.99, 16, 2.92078162],
      [0.99, 50, 2.67779327],
    ];
    for (const [probability, degreesOfFreedom, factor] of published) {
      expect(Math.abs(coverageFactor(degreesOfFreedom, probability) - factor)).toBeLessThan(1e-6);
    }
  });

  it('does not round effective degrees of freedom down', () => {
    // JCGM 100:2008, G.4.1: ν_eff = 18.998742 is printed as 19.0; k is 2.093, not the 2.101 of 18.
    // 2.09303343456606 and, for 16.64, 2.11329800857711: root of the incomplete beta function at 40 digits, mpmath 1.x.
    expectRelative(coverageFactor(18.998742), 2.09303343456606, 1e-10);
    expectRelative(coverageFactor(16.64), 2.11329800857711, 1e-10);
  });

  it('takes the normal factor where every uncertainty is taken as known', () => {
    // Normal table, two-sided 95 %: 1.959963985.
    expect(Math.abs(coverageFactor(null) - 1.959963985)).toBeLessThan(1e-9);
  });
});
