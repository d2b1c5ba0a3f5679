import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type CurveFit,
  curveAt,
  curveErrorShares,
  fitCurve,
  isBeyondCurve,
  rawAt,
} from '../../../analysis/calibration/fitCurve.ts';
import { gumH3 } from '../../reference/gum-h3.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const thermometer = {
  degree: 1,
  points: gumH3.points.map(({ reading, correction }) => ({ raw: reading, reference: correction })),
};

function standardUncertaintyAt(fit: CurveFit, raw: number): number {
  return fit.residualStandardDeviation * Math.hypot(...curveErrorShares(fit, raw));
}

function refusalOf(curve: Parameters<typeof fitCurve>[0]): string {
  const fit = fitCurve(curve);
  return fit.ok ? 'accepted' : fit.reason.code;
}

describe('the curve of a calibration', () => {
  it('reproduces the thermometer calibration of the GUM: line, standard errors, correlation and the value at 30 °C', () => {
    // JCGM 100:2008, H.3; t0 = 20 °C.
    const fit = accepted(fitCurve(thermometer));
    expectRelative(curveAt(fit, 20), gumH3.y1.value, 1e-8);
    expectRelative(curveAt(fit, 21) - curveAt(fit, 20), gumH3.y2.value, 1e-8);
    expectRelative(fit.residualStandardDeviation, gumH3.residualStandardDeviation, 1e-8);
    expect(fit.degreesOfFreedom).toBe(gumH3.degreesOfFreedom);
    expectRelative(standardUncertaintyAt(fit, 20), gumH3.y1.standardUncertainty, 1e-6);
    expectRelative(curveAt(fit, 30), gumH3.at30C.value, 1e-8);
    expectRelative(standardUncertaintyAt(fit, 30), gumH3.at30C.standardUncertainty, 1e-6);
    const intercept = curveErrorShares(fit, 20);
    const slope = curveErrorShares(fit, 21).map((share, index) => share - (intercept[index] ?? Number.NaN));
    expectRelative(fit.residualStandardDeviation * Math.hypot(...slope), gumH3.y2.standardUncertainty, 1e-6);
    const product = intercept.reduce((sum, share, index) => sum + share * (slope[index] ?? Number.NaN), 0);
    expectRelative(product / Math.hypot(...intercept) / Math.hypot(...slope), gumH3.correlation, 1e-6);
  });

  it('keeps the residuals, whose squares add up to those of the GUM', () => {
    const fit = accepted(fitCurve(thermometer));
    // JCGM 100:2008, H.3: Σ residual² = 1.10096583e-4 °C².
    expectRelative(
      fit.residuals.reduce((sum, residual) => sum + residual ** 2, 0),
      1.10096583e-4,
      1e-7,
    );
  });

  it('returns the cubic it was fed, whatever the unit of the raw values', () => {
    // Law: y = 1 + 2 x + 0.3 x² + 0.1 x³ with x = raw/4096, slope 2 + 0.6 x + 0.3 x² > 0 everywhere.
    const cubic = (raw: number): number => 1 + (2 * raw) / 4096 + 0.3 * (raw / 4096) ** 2 + 0.1 * (raw / 4096) ** 3;
    const points = [0, 700, 1300, 2100, 2800, 3500, 4096].map((raw) => ({ raw, reference: cubic(raw) }));
    const fit = accepted(fitCurve({ degree: 3, points }));
    for (const raw of [100, 1999, 4000]) expectRelative(curveAt(fit, raw), cubic(raw), 1e-12);
    expect(fit.residualStandardDeviation).toBeLessThan(1e-12);
  });

  it('finds the raw value of any value in its reach again, rising or falling (seed 5)', () => {
    const line = fc.tuple(fc.double({ min: 0.01, max: 100, noNaN: true }), fc.constantFrom(1, -1));
    fc.assert(
      fc.property(line, fc.double({ min: -0.1, max: 1.1, noNaN: true }), ([slope, sign], share) => {
        const points = [0, 1, 2, 3, 4].map((raw) => ({ raw, reference: sign * slope * raw + 3 }));
        const fit = accepted(fitCurve({ degree: 1, points }));
        expect(Math.abs(rawAt(fit, curveAt(fit, 4 * share)) - 4 * share)).toBeLessThan(1e-9);
      }),
      { seed: 5 },
    );
  });

  it('reaches a tenth of the span beyond its points', () => {
    const points = [4, 8, 12, 16, 20].map((raw) => ({ raw, reference: raw }));
    const fit = accepted(fitCurve({ degree: 1, points }));
    // By hand: span 16, a tenth 1.6: from 2.4 to 21.6.
    expect([2.3, 2.5, 21.5, 21.7].map((raw) => isBeyondCurve(fit, raw))).toEqual([true, false, false, true]);
  });

  it('takes a series up and down, in which raw values come twice', () => {
    const points = [0, 1, 2, 3, 2, 1, 0].map((raw, index) => ({ raw, reference: raw + (index > 3 ? 0.01 : -0.01) }));
    expect(refusalOf({ degree: 1, points })).toBe('accepted');
  });

  it('refuses too few points, points on one spot, and a curve that turns back', () => {
    const at = (raws: readonly number[], references: readonly number[]) =>
      raws.map((raw, index) => ({ raw, reference: references[index] ?? 0 }));
    expect(refusalOf({ degree: 2, points: at([0, 1, 2], [0, 1, 2]) })).toBe('CURVE_TOO_FEW_POINTS');
    expect(refusalOf({ degree: 1, points: at([5, 5, 5, 5], [0, 1, 2, 3]) })).toBe('CURVE_NOT_SPREAD');
    expect(refusalOf({ degree: 2, points: at([0, 0, 1, 1], [0, 0, 1, 1]) })).toBe('CURVE_NOT_SPREAD');
    // By hand: y = x² about the middle of the range has its lowest point there.
    expect(refusalOf({ degree: 2, points: at([-2, -1, 0, 1, 2], [4, 1, 0, 1, 4]) })).toBe('CURVE_NOT_MONOTONE');
    // By hand: y = x³ − x has slope −1 in the middle and 2 at ±1.
    expect(refusalOf({ degree: 3, points: at([-1, -0.5, 0, 0.5, 1], [0, 0.375, 0, -0.375, 0]) })).toBe(
      'CURVE_NOT_MONOTONE',
    );
    // A level line tells no raw value from another.
    expect(refusalOf({ degree: 1, points: at([0, 1, 2, 3], [7, 7, 7, 7]) })).toBe('CURVE_NOT_MONOTONE');
  });
});
