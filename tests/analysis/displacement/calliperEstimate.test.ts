import { describe, expect, it } from 'vitest';
import { calliperEstimate, calliperExcess, textbookEstimate } from '../../../analysis/displacement/calliperEstimate.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { FOURTEEN_TEETH, LONG_TIPS, meshOf, TWELVE_TEETH } from '../../support/meshOf.ts';

describe('calliperEstimate', () => {
  it('has the value of the page it comes from', () => {
    // "Formula to calculate gear pump displacement", paperzz.com/doc/7823320: b = 1.614, d_a = 5.039, a = 4.206 cm give
    // 19.52 cm³ (exactly 19.524293); the real set is a nominal 19 cm³.
    const estimate = calliperEstimate(0.05039, 0.04206, 0.01614);
    expect(Math.abs(estimate - 19.52e-6)).toBeLessThan(0.005e-6);
    expectRelative(estimate, 19.524293e-6, 1e-7);
  });

  it('says by how much it overstates', () => {
    // p_b²/12/(r_a² − r_w² − p_b²/12); by hand for 12 teeth of module 3 [mm²]: 6.536310/110.463690 = 5.917 %.
    expectRelative(calliperExcess(meshOf(TWELVE_TEETH)), 6.53631 / 110.46369, 1e-6);
    for (const gears of [TWELVE_TEETH, FOURTEEN_TEETH, LONG_TIPS]) {
      expect(calliperExcess(meshOf(gears))).toBeGreaterThan(0.04);
      expect(calliperExcess(meshOf(gears))).toBeLessThan(0.07);
    }
  });
});

describe('textbookEstimate', () => {
  it('has the textbook values in both systems of units', () => {
    // Esposito, Fluid Power with Applications, gear pump examples; from memory, recomputed: 3, 2, 1 in: 3.926991 in³, at
    // 1800 r/min 30.59993 US gal/min; 75, 50, 25 mm: 61.359232 cm³, at 90 % and 1000 r/min 55.223308 l/min (the book
    // rounds to 0.0614 l and 55.3 l/min).
    const inch = 0.0254;
    const us = textbookEstimate(3 * inch, 2 * inch, inch);
    expectRelative(us / inch ** 3, 3.926991, 1e-6);
    expectRelative(differenceFrom(us * 30, unitOf('US gal/min')), 30.59993, 1e-6);
    const si = textbookEstimate(0.075, 0.05, 0.025);
    expectRelative(si, 61.359232e-6, 1e-6);
    expectRelative(differenceFrom((0.9 * si * 1000) / 60, unitOf('l/min')), 55.223308, 1e-6);
    expectRelative(differenceFrom((0.9 * si * 1000) / 60, unitOf('l/min')), 55.3, 2e-3);
  });
});
