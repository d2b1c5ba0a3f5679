import { formatStated, type PrintedValue } from '../../analysis/formatStated.ts';
import { readableBudget } from '../../analysis/uncertainty/readableBudget.ts';
import type { Stated } from '../../analysis/uncertainty/stated.ts';
import { unitOf } from '../../analysis/units.ts';

/** Budget lines shown for a value in a terminal. */
const BUDGET_LINES = 6;

/** '13.899 ± 0.083 cm³/rev'. */
export function inOneLine({ value, expandedUncertainty, unit }: PrintedValue): string {
  return `${value} ± ${expandedUncertainty} ${unit}`.trimEnd();
}

/** A value with its expanded uncertainty in one line. */
export function printed(stated: Stated, unit: string): string {
  return inOneLine(formatStated(stated, unitOf(unit)));
}

/** Where the uncertainty of a value comes from, largest first. */
export function budgetLines(stated: Stated): string[] {
  const budget = readableBudget(stated);
  const shown = budget.slice(0, BUDGET_LINES);
  const rest = budget.slice(BUDGET_LINES);
  const lines = shown.map(({ label, share }) => `    ${(100 * share).toFixed(1).padStart(5)} %  ${label}`);
  if (rest.length === 0) return lines;
  const share = rest.reduce((sum, line) => sum + line.share, 0);
  return [...lines, `    ${(100 * share).toFixed(1).padStart(5)} %  ${rest.length} smaller`];
}
