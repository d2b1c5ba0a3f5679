import { describe, expect, it } from 'vitest';
import { expectRelative } from '../support/expectRelative.ts';
import { binomialBelow, brokenPromises, type Coverage, coverageOf } from './coverage.ts';
import type { Figure, FigureName, Measured } from './figures.ts';

function everywhere<Value>(value: Value): Readonly<Record<FigureName, Value>> {
  return { capacity: value, slip: value, efficiency: value, flow: value };
}

/** A study in which every interval held so often, with intervals as wide as the oracle's. */
function studyOf(benchCount: number, heldCount: number, refusedCount = 0): Coverage {
  return {
    benchCount,
    refusedCodes: Array.from({ length: refusedCount }, () => 'NO_HOLDS'),
    heldCounts: everywhere(heldCount),
    widthRatios: everywhere(1),
  };
}

describe('the binomial sum', () => {
  it('is that of two draws, worked by hand', () => {
    // p 0.95: P(0) = 0.05² = 0.0025, P(0 or 1) = 1 − 0.95² = 0.0975.
    expectRelative(binomialBelow(0, 2, 0.95), 0.0025, 1e-12);
    expectRelative(binomialBelow(1, 2, 0.95), 0.0975, 1e-12);
  });

  it('is the exact one of sixteen draws', () => {
    // Σ C(16, k) 19^k / 20^16 for k up to 11, summed in whole numbers: 8.573116590448e-4.
    expectRelative(binomialBelow(11, 16, 0.95), 8.573116590448e-4, 1e-10);
  });

  it('is none below the first and all at the last', () => {
    expect(binomialBelow(-1, 5, 0.95)).toBe(0);
    expectRelative(binomialBelow(5, 5, 0.95), 1, 1e-12);
  });
});

describe('a study', () => {
  it('counts what its intervals held, the edge of an interval included, and takes medians of widths', () => {
    const figure = (off: number): Figure => ({ value: 10 + off, halfWidth: 2, truth: 10 });
    const bench = (off: number): Measured => ({
      isRefused: false,
      figures: everywhere(figure(off)),
      oracleHalfWidths: everywhere(1.6),
    });
    const coverage = coverageOf([bench(0), bench(-2), bench(2.1), { isRefused: true, code: 'TOO_FEW_HOLDS' }]);
    expect(coverage).toEqual({
      benchCount: 4,
      refusedCodes: ['TOO_FEW_HOLDS'],
      heldCounts: everywhere(2),
      // 2/1.6, by hand.
      widthRatios: everywhere(1.25),
    });
  });

  it('of 200 benches keeps its promise from 90 to 99 per cent, and not outside', () => {
    for (const held of [180, 190, 198]) expect(brokenPromises(studyOf(200, held))).toEqual([]);
    for (const held of [179, 199, 200]) {
      expect(brokenPromises(studyOf(200, held))).toEqual(['capacity', 'slip', 'efficiency', 'flow']);
    }
  });

  it('of 16 benches keeps it unless so few held that it is rarer than one in a thousand', () => {
    // P(11 or fewer of 16) = 8.6e-4 and P(12 or fewer) = 7.0e-3 (Σ C(16, k) 19^k / 20^16).
    expect(brokenPromises(studyOf(16, 12))).toEqual([]);
    expect(brokenPromises(studyOf(16, 16))).toEqual([]);
    expect(brokenPromises(studyOf(16, 11))).toEqual(['capacity', 'slip', 'efficiency', 'flow']);
  });

  it('refuses at most one bench in ten', () => {
    expect(brokenPromises(studyOf(200, 170, 20))).toEqual([]);
    expect(brokenPromises(studyOf(200, 170, 21))).toEqual(['refused']);
    // Six of 16 at one in ten: P(6 or more) = 3.3e-3, seven 5.0e-4.
    expect(brokenPromises(studyOf(16, 10, 6))).toEqual([]);
    expect(brokenPromises(studyOf(16, 9, 7))).toEqual(['refused']);
  });

  it('is not bought with intervals over half as wide again as those of an oracle', () => {
    const widthRatios = { capacity: 1.5, slip: 1.51, efficiency: Number.NaN, flow: 0.9 };
    expect(brokenPromises({ ...studyOf(200, 190), widthRatios })).toEqual(['slip width', 'efficiency width']);
  });

  it('in which nothing was measured keeps no promise', () => {
    const coverage = coverageOf(Array.from({ length: 3 }, (): Measured => ({ isRefused: true, code: 'NO_HOLDS' })));
    expect(brokenPromises(coverage)).toEqual(
      expect.arrayContaining(['capacity', 'slip', 'efficiency', 'flow', 'capacity width']),
    );
  });
});
