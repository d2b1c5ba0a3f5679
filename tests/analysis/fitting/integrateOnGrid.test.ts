import { describe, expect, it } from 'vitest';
import { integrateOnGrid } from '../../../analysis/fitting/integrateOnGrid.ts';
import type { Slopes } from '../../../analysis/fitting/rosenbrockStep.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const decay: Slopes = (_, state, into) => {
  into[0] = -(state[0] ?? Number.NaN);
};

function steps(count: number): readonly number[] {
  return Array.from({ length: count + 1 }, (_, index) => index / count);
}

describe('integration over given steps', () => {
  it('gives e⁻¹ for the decay of one over one, and a sixteenth of the error for half the step', () => {
    // y' = −y, y(0) = 1: y(1) = e⁻¹; a method of fourth order.
    const errorOf = (count: number): number =>
      Math.abs((integrateOnGrid(decay, [1], [1], steps(count), null).states.at(-1)?.[0] ?? 0) - Math.exp(-1));
    expect(errorOf(20)).toBeLessThan(1e-6);
    expect(errorOf(10) / errorOf(20)).toBeGreaterThan(12);
    expect(errorOf(10) / errorOf(20)).toBeLessThan(20);
  });

  it('keeps still where the law is a million times as fast as the step', () => {
    // y' = −10⁶ (y − 1): y goes to 1 and stays; an explicit step of 0.1 would blow up.
    const stiff: Slopes = (_, state, into) => {
      into[0] = -1e6 * ((state[0] ?? Number.NaN) - 1);
    };
    expectRelative(integrateOnGrid(stiff, [0], [1], steps(10), null).states.at(-1)?.[0] ?? 0, 1, 1e-6);
  });

  it('ends at the last step before it is over', () => {
    const course = integrateOnGrid(decay, [1], [1], steps(10), (state) => (state[0] ?? 0) < 0.5);
    expect(course.ending).toBe('stopped');
    // By hand: e^(−0.6) = 0.549, e^(−0.7) = 0.497.
    expectRelative(course.times.at(-1) ?? 0, 0.6, 1e-9);
  });

  it('lets a valve hold what a step arrived at', () => {
    const held = integrateOnGrid(decay, [1], [1], steps(4), null, {
      beforeStep: () => undefined,
      afterStep: (state) => {
        state[0] = Math.max(0.8, state[0] ?? 0);
      },
    });
    expect(held.states.map(([value]) => value)).toEqual([1, 0.8, 0.8, 0.8, 0.8]); // e^(−0.25) = 0.779
  });
});
