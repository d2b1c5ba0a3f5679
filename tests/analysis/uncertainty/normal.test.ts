import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { normalCdf, normalQuantile } from '../../../analysis/uncertainty/normal.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('normalCdf', () => {
  it('is right to double precision, far out in the tail too', () => {
    // Recomputed at 40 digits (mpmath 1.x); Abramowitz and Stegun (1964), table 26.1, has the same to 15 decimals.
    const published: readonly (readonly [number, number])[] = [
      [-10, 7.61985302416053e-24],
      [-5, 2.866515718791939e-7],
      [-3, 0.0013498980316300946],
      [-1, 0.15865525393145705],
      [0, 0.5],
      [1, 0.841344746068543],
      [3.0000001, 0.9986501024115547],
    ];
    for (const [x, probability] of published) expectRelative(normalCdf(x), probability, 1e-13);
  });

  it('gives the conformity probability of a one-sided limit', () => {
    // JCGM 106:2012, clause 7 (breakdown voltage: limit −5.40 V, measured −5.47 V, u = 0.05 V): 92 %; from memory of it,
    // recomputed: Φ(1.40) = 0.919243.
    expect(Math.abs(normalCdf((-5.4 - -5.47) / 0.05) - 0.919243)).toBeLessThan(1e-6);
  });

  it('gives the worst false acceptance behind a guard band', () => {
    // ILAC-G8:09/2019 with U = 2 u and a guard band of r U: 1 − Φ(2 r); from memory of it, recomputed.
    expect(Math.abs(normalCdf(-1) - 0.158655)).toBeLessThan(1e-6);
    expect(Math.abs(normalCdf(-2) - 0.02275)).toBeLessThan(1e-6);
  });

  it('passes a missing value on as missing', () => {
    expect(normalCdf(Number.NaN)).toBeNaN();
  });
});

describe('normalQuantile', () => {
  it('gives the usual one-sided quantiles', () => {
    // JCGM 106:2012, table 1 (0.84, 1.28, 1.64, 2.33, 3.09), recomputed to nine decimals.
    const published: readonly (readonly [number, number])[] = [
      [0.8, 0.841621234],
      [0.9, 1.281551566],
      [0.95, 1.644853627],
      [0.99, 2.326347874],
      [0.999, 3.090232306],
      [0.975, 1.959963985],
    ];
    for (const [probability, x] of published) expect(Math.abs(normalQuantile(probability) - x)).toBeLessThan(1e-9);
  });

  it('turns the distribution function back and is odd about a half (seed 42)', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-12, max: 0.5, noNaN: true }), (probability) => {
        expectRelative(normalCdf(normalQuantile(probability)), probability, 1e-12);
        expect(Math.abs(normalQuantile(1 - probability) + normalQuantile(1 - (1 - probability)))).toBeLessThan(1e-12);
      }),
      { seed: 42, numRuns: 200 },
    );
  });

  it('refuses a probability that is none', () => {
    for (const bad of [0, 1, -1, 2, Number.NaN]) expect(() => normalQuantile(bad)).toThrow(RangeError);
  });
});
