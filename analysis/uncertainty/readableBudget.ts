import type { BudgetLine, Stated } from './stated.ts';

const OF_A_HOLD = /^hold\.\d+\./;

/**
 * A budget as it is read: the scatter of the readings of all holds in one line, largest contribution first.
 *
 * @param stated - a value with its budget [any unit]
 * @returns lines, each with its share of the variance [unit of the value, 1]
 */
export function readableBudget(stated: Pick<Stated, 'budget'>): readonly BudgetLine[] {
  const { budget } = stated;
  const ofHolds = budget.filter(({ sourceId }) => OF_A_HOLD.test(sourceId));
  if (ofHolds.length < 2) return budget;
  const others = budget.filter(({ sourceId }) => !OF_A_HOLD.test(sourceId));
  const together: BudgetLine = {
    sourceId: 'holds',
    label: 'scatter of the readings in the holds',
    kind: 'random',
    contribution: Math.hypot(...ofHolds.map(({ contribution }) => contribution)),
    share: ofHolds.reduce((sum, { share }) => sum + share, 0),
  };
  return [...others, together].sort((a, b) => b.share - a.share);
}
