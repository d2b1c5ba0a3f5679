import { describe, expect, it } from 'vitest';
import { expectRelative } from './expectRelative.ts';

describe('expectRelative', () => {
  it('passes what is within the tolerance and fails what is not, however small the numbers', () => {
    // By hand: 1.5e-12 is 50 % above 1e-12, where an absolute comparison would see no difference.
    expectRelative(1.000001e-12, 1e-12, 2e-6);
    expectRelative(-3, -3, 0);
    expect(() => expectRelative(1.5e-12, 1e-12, 1e-3)).toThrow();
    expect(() => expectRelative(-1, 1, 1e-3)).toThrow();
  });

  it('fails on a number that is none', () => {
    expect(() => expectRelative(Number.NaN, 1, 1)).toThrow();
    expect(() => expectRelative(1, Number.NaN, 1)).toThrow();
    expect(() => expectRelative(Number.POSITIVE_INFINITY, 1, 1)).toThrow();
    expect(() => expectRelative(0, 0, 1)).toThrow();
  });
});
