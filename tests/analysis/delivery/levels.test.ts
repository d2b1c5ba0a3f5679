import { describe, expect, it } from 'vitest';
import { levelsOf } from '../../../analysis/delivery/levels.ts';

const itself = (value: number): number => value;

describe('levelsOf', () => {
  it('brings set points that were met by hand together, lowest first', () => {
    // By hand: 5 % of 4.0 is 0.2.
    expect(levelsOf([4, 1.05, 2, 1, 3.9], itself)).toEqual([[1, 1.05], [2], [3.9, 4]]);
  });

  it('does not chain a slow sweep into one level', () => {
    // By hand: 20 steps of 0.1 to 2.0; 5 % of 2.0 is 0.1, so that at most two neighbours share a level.
    const sweep = Array.from({ length: 20 }, (_, index) => (index + 1) / 10);
    expect(levelsOf(sweep, itself).length).toBeGreaterThanOrEqual(10);
  });

  it('has none of nothing', () => {
    expect(levelsOf([], itself)).toEqual([]);
  });
});
