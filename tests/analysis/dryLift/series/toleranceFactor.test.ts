import { describe, expect, it } from 'vitest';
import { toleranceFactor } from '../../../../analysis/dryLift/series/toleranceFactor.ts';

describe('the factor of a two-sided normal tolerance interval', () => {
  // Berthouex and Brown, Statistics for Environmental Engineers (2002), table 21.1, confidence 95 %: share 90, 95, 99 %.
  it.each([
    [4, 5.37, 6.34, 8.22],
    [5, 4.29, 5.08, 6.6],
    [6, 3.73, 4.42, 5.76],
    [7, 3.39, 4.02, 5.24],
    [8, 3.16, 3.75, 4.89],
    [9, 2.99, 3.55, 4.63],
    [10, 2.86, 3.39, 4.44],
    [12, 2.67, 3.17, 4.16],
    [20, 2.32, 2.76, 3.62],
    [30, 2.15, 2.55, 3.35],
  ])('is that of a published table for %i values', (count, of90, of95, of99) => {
    expect(Math.abs(toleranceFactor(count, 0.9) - of90)).toBeLessThanOrEqual(0.0051);
    expect(Math.abs(toleranceFactor(count, 0.95) - of95)).toBeLessThanOrEqual(0.0051);
    expect(Math.abs(toleranceFactor(count, 0.99) - of99)).toBeLessThanOrEqual(0.0051);
  });

  it('lies within half a per cent of the approximation in a worked example', () => {
    // NIST/SEMATECH e-Handbook 7.2.6.3: 43 wafers, 90 % of the population with 99 % confidence, Howe's k = 2.217.
    expect(Math.abs(toleranceFactor(43, 0.9, 0.99) / 2.217 - 1)).toBeLessThan(5e-3);
  });

  it('is refused of a single value', () => {
    expect(() => toleranceFactor(1)).toThrow(RangeError);
  });
});
