import { describe, expect, it } from 'vitest';
import { expansionOf, warmClearance } from '../../../analysis/slip/expansion.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('clearances at temperature', () => {
  it('has the handbook expansions', () => {
    // Callister and Rethwisch, Fundamentals of Materials Science and Engineering, 3rd ed., table B.6: aluminium 356 21.5 to
    // 6061 23.6; bearing bronze 18.0; grey iron 11.4, ductile 10.6; 1e-6/K.
    for (const [material, values] of [
      ['aluminium', [21.5, 23.6]],
      ['bronze', [18.0, 17.8]],
      ['cast iron', [11.4, 10.6]],
    ] as const) {
      const { perK, halfWidthPerK } = expansionOf(material);
      for (const value of values) expect(Math.abs(perK - value * 1e-6)).toBeLessThanOrEqual(halfWidthPerK * 1.0001);
    }
  });

  it('spans every material where none is known', () => {
    const unknown = expansionOf(null);
    for (const material of ['aluminium', 'cast iron', 'steel', 'bronze'] as const) {
      expect(Math.abs(expansionOf(material).perK - unknown.perK)).toBeLessThanOrEqual(unknown.halfWidthPerK);
    }
  });

  it('opens the tips of steel gears in an aluminium body, over 60 K to more than twice the slip', () => {
    // By hand: 42 mm in 42.08 mm: 80 µm + 60 (22.5e-6 · 42 080 − 11.8e-6 · 42 000) µm = 80 + 27.072 = 107.072 µm across;
    // slip goes with the cube: (107.072/80)³ = 2.3975.
    const pair = {
      clearanceM: 80e-6,
      insideM: 0.042,
      outsideExpansionPerK: expansionOf('aluminium').perK,
      insideExpansionPerK: expansionOf('steel').perK,
    };
    const warmM = warmClearance(pair, 60);
    expectRelative(warmM, 107.072e-6, 1e-6);
    expectRelative((warmM / 80e-6) ** 3, 2.3975, 1e-4);
  });

  it('closes where the inside grows more, past zero into binding', () => {
    const pair = { clearanceM: 1e-6, insideM: 0.02, outsideExpansionPerK: 11.8e-6, insideExpansionPerK: 17.9e-6 };
    expect(warmClearance(pair, 60)).toBeLessThan(0);
    expect(warmClearance(pair, 0)).toBe(1e-6);
  });
});
