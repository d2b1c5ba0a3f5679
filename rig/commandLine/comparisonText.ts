import type { RunComparison } from '../../analysis/againstTheory/compareRuns.ts';
import { printed } from './printed.ts';

function agreement(agrees: boolean): string {
  return agrees ? 'agrees' : 'differs by more than its uncertainty';
}

/** A run beside the earlier ones of its pump, for a terminal; nothing where there are none. */
export function comparisonText(comparison: RunComparison | null): string[] {
  if (comparison === null || comparison.earlier.length === 0) return [];
  const { earlier, mounting } = comparison;
  const { derivedCapacityM3PerRev } = mounting;
  return [
    'against earlier runs of this pump:',
    ...earlier.flatMap(({ label, derivedCapacityM3PerRev: capacity, slipAtDutyM3PerS: slip }) => [
      `  ${label}: V_i now less then ${printed(capacity.difference, 'cm3/rev')}, ${agreement(capacity.agrees)}`,
      ...(slip === null
        ? []
        : [`    slip at the duty, now less then, ${printed(slip.difference, 'l/min')}, ${agreement(slip.agrees)}`]),
    ]),
    `  ${mounting.text}`,
    ...(derivedCapacityM3PerRev === null
      ? []
      : [`  V_i with mounting in its budget: ${printed(derivedCapacityM3PerRev, 'cm3/rev')}`]),
  ];
}
