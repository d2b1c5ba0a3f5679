import type { Outcome } from '../../analysis/outcome.ts';

/** The value of an outcome that is expected to be one; fails with the reason if it is a refusal. */
export function accepted<Value, Reason>(outcome: Outcome<Value, Reason>): Value {
  if (!outcome.ok) throw new Error(`refused: ${JSON.stringify(outcome.reason)}`);
  return outcome.value;
}
