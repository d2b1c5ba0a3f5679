import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { kinematicViscosity, viscosityLawRange } from '../../../analysis/oil/viscosity.ts';
import { expectRelative } from '../../support/expectRelative.ts';

/** A point in shop-floor units: °C and mm²/s. */
function point(celsius: number, mm2PerS: number) {
  return { temperatureK: celsius + 273.15, kinematicViscosityM2PerS: mm2PerS * 1e-6 };
}

describe('kinematicViscosity', () => {
  it('reproduces a published worked sheet for ASTM D341', () => {
    // A spreadsheet example for ASTM D341 (scribd.com/document/361017004): 32 mm²/s at 40 °C and 5.4 at 100 °C give 8.5 at
    // 80 °C (8.5331 with 273 K); recomputed with 273.15 K: 8.5332 at 80 °C, 86.278 at 20 °C.
    const [lower, upper] = [point(40, 32), point(100, 5.4)];
    expectRelative(kinematicViscosity(lower, upper, 353.15), 8.5332e-6, 1e-5);
    expectRelative(kinematicViscosity(lower, upper, 293.15), 86.278e-6, 1e-5);
    // The 0.15 K offset of that sheet does not show in its own two digits.
    expectRelative(kinematicViscosity(lower, upper, 353.15), 8.5e-6, 5e-3);
  });

  it('gives a VG 46 oil at four temperatures', () => {
    // ASTM D341 for 46.0 mm²/s at 40 °C and 6.80 at 100 °C, recomputed (A = 9.4179926, B = 3.6844415).
    const published: readonly (readonly [number, number])[] = [
      [0, 577.321],
      [20, 133.838],
      [60, 20.6227],
      [80, 11.1026],
    ];
    for (const [celsius, mm2PerS] of published) {
      expectRelative(kinematicViscosity(point(40, 46), point(100, 6.8), celsius + 273.15), mm2PerS * 1e-6, 1e-5);
    }
  });

  it('gives back the two points it was made from', () => {
    // By definition of the line, as long as ν ≥ 2 mm²/s.
    const [lower, upper] = [point(40, 46), point(100, 6.8)];
    expectRelative(kinematicViscosity(lower, upper, lower.temperatureK), 46e-6, 1e-12);
    expectRelative(kinematicViscosity(lower, upper, upper.temperatureK), 6.8e-6, 1e-12);
  });

  it('bends at low viscosity as the standard does, and turns back as nearly as the standard', () => {
    // ASTM D341, low-viscosity terms (equations in help.technicaltoolboxes.com, D341): Z(0.5) = 1.28066101 and
    // Z(1.0) = 1.72192780; the approximate inverse gives 0.500055 and 0.999949 mm²/s back.
    const [lower, upper] = [point(40, 1), point(100, 0.5)];
    expect(Math.abs(kinematicViscosity(lower, upper, lower.temperatureK) * 1e6 - 0.999949)).toBeLessThan(1e-6);
    expect(Math.abs(kinematicViscosity(lower, upper, upper.temperatureK) * 1e6 - 0.500055)).toBeLessThan(1e-6);
    // Half-way in log T, log Z is the geometric mean: Z = 10^√(log 1.28066101 · log 1.72192780) = 1.442898903, and the
    // inverse gives 0.692599377 (worked by hand from the equations above, at 30 digits).
    const halfWayK = Math.sqrt(lower.temperatureK * upper.temperatureK);
    expect(Math.abs(kinematicViscosity(lower, upper, halfWayK) * 1e6 - 0.692599377)).toBeLessThan(1e-6);
  });

  it('thins with every degree (seed 44)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 10, max: 1000, noNaN: true }),
        fc.double({ min: 0.1, max: 0.6, noNaN: true }),
        fc.double({ min: -30, max: 149, noNaN: true }),
        (mm2PerSAt40C, ratio, celsius) => {
          const [lower, upper] = [point(40, mm2PerSAt40C), point(100, Math.max(2, ratio * mm2PerSAt40C))];
          const here = kinematicViscosity(lower, upper, celsius + 273.15);
          const hotter = kinematicViscosity(lower, upper, celsius + 274.15);
          expect(hotter).toBeGreaterThan(0);
          expect(hotter).toBeLessThan(here);
        },
      ),
      { seed: 44, numRuns: 200 },
    );
  });

  it('refuses what is no temperature', () => {
    for (const bad of [0, -1, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => kinematicViscosity(point(40, 46), point(100, 6.8), bad)).toThrow(RangeError);
    }
  });
});

describe('viscosityLawRange', () => {
  it('is where the law of two points reaches the limits of the standard', () => {
    // ASTM D341: 0.21 to 2·10⁷ mm²/s. The law itself must give them back.
    const [lower, upper] = [point(40, 46), point(100, 6.8)];
    const { leastK, mostK } = viscosityLawRange(lower, upper);
    expectRelative(kinematicViscosity(lower, upper, leastK), 20, 1e-9);
    // At 0.21 mm²/s the standard's inverse is approximate, and less good than at 0.5.
    expectRelative(kinematicViscosity(lower, upper, mostK), 0.21e-6, 0.02);
  });
});
