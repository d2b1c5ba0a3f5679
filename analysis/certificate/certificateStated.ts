import { readableBudget } from '../uncertainty/readableBudget.ts';
import type { Stated } from '../uncertainty/stated.ts';
import type { BudgetedValue, StatedValue } from './statedValue.ts';

/** A stated value without its budget. */
export function statedOnly(stated: Stated): StatedValue {
  const { value, standardUncertainty, coverageFactor, expandedUncertainty, degreesOfFreedom } = stated;
  return { value, standardUncertainty, coverageFactor, expandedUncertainty, degreesOfFreedom };
}

/** A stated value with its budget, as a certificate gives it. */
export function budgeted(stated: Stated): BudgetedValue {
  const budget = readableBudget(stated).map(({ label, kind, share }) => ({ label, kind, share }));
  return { ...statedOnly(stated), budget };
}

/** Null stays null. */
export function statedOrNull(stated: Stated | null): StatedValue | null {
  return stated === null ? null : statedOnly(stated);
}
