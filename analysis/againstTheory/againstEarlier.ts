import { mergeSources } from '../efficiency/mergeSources.ts';
import type { Source, SourceTable, Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { type Agreement, agreementOf } from './agreement.ts';

/** What a run says of its pump, with its sources. */
export type PumpRun = {
  readonly runId: string;
  /** 'as found', 'as rebuilt', 'run in'. */
  readonly label: string;
  readonly derivedCapacityM3PerRev: Uncertain;
  /** Slip at the duty; null where the pump has none. */
  readonly slipAtDutyM3PerS: Uncertain | null;
  readonly sources: SourceTable;
  /**
   * What an error rests on: the reference of the channel's calibration, of the oil's analysis. Two runs share an error of
   * the same id only where both name the same reference; null: the error is the run's own.
   */
  readonly referenceOf: (source: Source) => string | null;
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

function isShared(now: PumpRun, earlier: PumpRun, source: Source): boolean {
  const same = now.sources[source.id];
  if (source.kind === 'random' || same === undefined) return false;
  const reference = earlier.referenceOf(source);
  return (
    reference !== null &&
    reference === now.referenceOf(same) &&
    same.standardUncertainty === source.standardUncertainty &&
    same.shape === source.shape
  );
}

/**
 * A run against earlier runs of the same pump: capacity and slip at the duty. Scatter is each run's own. A calibration
 * error is shared, and cancels as far as it acts alike, only where the same calibration was in force in both; else it is
 * counted in each. An error of the same instrument that outlived a recalibration is so counted twice, which widens the
 * difference rather than narrowing it.
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
    const shared = new Set(
      Object.values(run.sources)
        .filter((source) => isShared(now, run, source))
        .map(({ id }) => id),
    );
    const idThen = (id: string): string => (shared.has(id) ? id : `${run.runId}.${id}`);
    const then = ({ value, sensitivities }: Uncertain): Uncertain => ({
      value,
      sensitivities: Object.fromEntries(Object.entries(sensitivities).map(([id, by]) => [idThen(id), by])),
    });
    const table = mergeSources(
      Object.values(now.sources),
      Object.values(run.sources)
        .filter(({ id }) => !shared.has(id))
        .map((source) => ({
          ...source,
          id: idThen(source.id),
          label: `${source.label} (${run.label})`,
          pooledAs: source.pooledAs === null ? null : `${run.runId}.${source.pooledAs}`,
        })),
    );
    const state = (uncertain: Uncertain) => stateUncertainty(uncertain, table);
    const slip =
      now.slipAtDutyM3PerS === null || run.slipAtDutyM3PerS === null
        ? null
        : agreementOf(now.slipAtDutyM3PerS, then(run.slipAtDutyM3PerS), state);
    return {
      runId: run.runId,
      label: run.label,
      derivedCapacityM3PerRev: agreementOf(now.derivedCapacityM3PerRev, then(run.derivedCapacityM3PerRev), state),
      slipAtDutyM3PerS: slip,
      sharedSourceIds: [...shared],
    };
  });
}
