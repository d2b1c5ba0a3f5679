import { expect, it } from 'vitest';
import { readableBudget } from '../../../analysis/uncertainty/readableBudget.ts';
import type { BudgetLine } from '../../../analysis/uncertainty/stated.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function line(sourceId: string, kind: BudgetLine['kind'], contribution: number, share: number): BudgetLine {
  return { sourceId, label: sourceId, kind, contribution, share };
}

it('tells the scatter of all holds in one line, root sum of squares, at the place that its share gives it', () => {
  const budget = [
    line('flow.gain', 'calibration', 6, 0.36),
    line('hold.1.flow', 'random', 4, 0.16),
    line('hold.12.speed', 'random', 3, 0.09),
    line('oil.viscosity', 'calibration', 2, 0.04),
  ];
  const read = readableBudget({ budget });
  // 4² + 3² = 5².
  expect(read.map(({ sourceId }) => sourceId)).toEqual(['flow.gain', 'holds', 'oil.viscosity']);
  expectRelative(read[1]?.contribution ?? 0, 5, 1e-12);
  expectRelative(read[1]?.share ?? 0, 0.25, 1e-12);
});

it('leaves a budget alone that has no more than one line of a hold', () => {
  const budget = [line('flow.gain', 'calibration', 6, 0.9), line('hold.3.flow', 'random', 2, 0.1)];
  expect(readableBudget({ budget })).toBe(budget);
});
