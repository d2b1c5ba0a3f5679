import { expect } from 'vitest';

/** Relative comparison that fails on NaN; toBeCloseTo is absolute. */
export function expectWithin(value: number, expected: number, relativeTolerance: number): void {
  const deviation = Math.abs(value / expected - 1);
  expect(deviation <= relativeTolerance, `${value} against ${expected}: off by ${deviation}`).toBe(true);
}
