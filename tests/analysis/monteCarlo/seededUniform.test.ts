import { describe, expect, it } from 'vitest';
import { seededUniform, xoshiro128 } from '../../../analysis/monteCarlo/seededUniform.ts';

describe('seeded uniform numbers', () => {
  it('are those of the reference implementation of xoshiro128**', () => {
    // Blackman and Vigna, xoshiro128starstar.c 1.1, state {1, 2, 3, 4}; values as in the tests of the crate rand_xoshiro.
    const next = xoshiro128([1, 2, 3, 4]);
    const numbers = Array.from({ length: 10 }, next);
    expect(numbers).toEqual([
      11520, 0, 5927040, 70819200, 2031721883, 1637235492, 1287239034, 3734860849, 3729100597, 4258142804,
    ]);
  });

  it('repeat with the seed and differ with it', () => {
    const of = (seed: number): number[] => Array.from({ length: 20 }, seededUniform(seed));
    expect(of(7)).toEqual(of(7));
    expect(of(7)).not.toEqual(of(8));
  });

  it('lie strictly between 0 and 1 and are even over sixteen parts (seed 3)', () => {
    const next = seededUniform(3);
    const counts = new Array<number>(16).fill(0);
    for (let index = 0; index < 16_000; index += 1) {
      const value = next();
      expect(value > 0 && value < 1).toBe(true);
      const part = Math.floor(16 * value);
      counts[part] = (counts[part] ?? 0) + 1;
    }
    // χ² with 15 degrees of freedom lies below 37.70 in 999 of 1000 (Abramowitz and Stegun, table 26.8).
    const chiSquare = counts.reduce((sum, count) => sum + (count - 1000) ** 2 / 1000, 0);
    expect(chiSquare).toBeLessThan(37.7);
  });

  it('need a whole number and a state that is not all zero', () => {
    expect(() => seededUniform(0.5)).toThrow(RangeError);
    expect(() => xoshiro128([0, 0, 0, 0])).toThrow(RangeError);
  });
});
