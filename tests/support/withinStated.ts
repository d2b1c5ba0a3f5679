import { expect } from 'vitest';
import type { Stated } from '../../analysis/uncertainty/stated.ts';
import { coverageFactor } from '../../analysis/uncertainty/studentT.ts';

/**
 * One run against the truth of one practice bench. The printed interval is a 95 % one and misses one bench in twenty by
 * design, so a single bench, of any seed, is held to the interval of 99.9 % that the same statement makes; that the 95 %
 * are kept is a matter of many seeds.
 */
export function expectWithinStated(stated: Stated, truth: number): void {
  const reach = coverageFactor(stated.degreesOfFreedom, 0.999) * stated.standardUncertainty;
  expect(Math.abs(stated.value - truth), `${stated.value} against ${truth}`).toBeLessThanOrEqual(reach);
}
