import type { Uncertain } from '../uncertainty/source.ts';
import { type Agreement, agreementOf } from './agreement.ts';
import { heldAgainst, type RunErrors } from './heldAgainst.ts';

/** What a run says of its pump, with its sources. */
export type PumpRun = RunErrors & {
  readonly derivedCapacityM3PerRev: Uncertain;
  /** Slip at the duty; null where the pump has none. */
  readonly slipAtDutyM3PerS: Uncertain | null;
};

/** One earlier run against this one: `measured` is now, `expected` is what it was then. */
export type RunAgainstEarlier = {
  readonly runId: string;
  readonly label: string;
  readonly derivedCapacityM3PerRev: Agreement;
  readonly slipAtDutyM3PerS: Agreement | null;
  /** Ids of the errors that both runs share, so that they cancel as far as they act alike. */
  readonly sharedSourceIds: readonly string[];
};

/**
 * A run against earlier runs of the same pump: capacity and slip at the duty; what both runs share cancels as
 * {@link heldAgainst} has it.
 *
 * @param now - this run [m³/rev, m³/s]
 * @param earlier - other runs of the pump, in the order in which they are to be shown [n runs]
 * @returns one entry an earlier run [m³/rev, m³/s]
 * @throws RangeError if a value is sensitive to a source that its run does not have
 *
 * Source: JCGM 100:2008, 5.2.2 and F.1.2.3 (errors common to two results); agreement as agreementOf.
 */
export function againstEarlier(now: PumpRun, earlier: readonly PumpRun[]): readonly RunAgainstEarlier[] {
  return earlier.map((run) => {
    const { ofOther, state, sharedSourceIds } = heldAgainst(now, run);
    const slip =
      now.slipAtDutyM3PerS === null || run.slipAtDutyM3PerS === null
        ? null
        : agreementOf(now.slipAtDutyM3PerS, ofOther(run.slipAtDutyM3PerS), state);
    return {
      runId: run.runId,
      label: run.label,
      derivedCapacityM3PerRev: agreementOf(now.derivedCapacityM3PerRev, ofOther(run.derivedCapacityM3PerRev), state),
      slipAtDutyM3PerS: slip,
      sharedSourceIds,
    };
  });
}
