import { expect } from 'vitest';

/** Fails unless |actual/expected − 1| is within the tolerance; NaN is within nothing. */
export function expectRelative(actual: number, expected: number, relativeTolerance: number): void {
  const deviation = Math.abs(actual / expected - 1);
  expect(deviation, `${actual} against ${expected}`).toBeLessThanOrEqual(relativeTolerance);
}
