import { mergeSources } from '../efficiency/mergeSources.ts';
import type { Source, SourceTable, Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';

/** A run's errors, and what each of them rests on. */
export type RunErrors = {
  readonly runId: string;
  /** 'as found', 'as rebuilt', 'run in'. */
  readonly label: string;
  readonly sources: SourceTable;
  /**
   * What an error rests on: the reference of the channel's calibration, of the oil's analysis. Two runs share an error of
   * the same id only where both name the same reference; null: the error is the run's own.
   */
  readonly referenceOf: (source: Source) => string | null;
};

/** Two runs with their errors in one table. */
export type HeldAgainst = {
  /** A value of the other run, as the common table names its errors. */
  readonly ofOther: (uncertain: Uncertain) => Uncertain;
  /** States a value of either, or of both. */
  readonly state: (uncertain: Uncertain) => Stated;
  readonly sharedSourceIds: readonly string[];
};

function isShared(now: RunErrors, then: RunErrors, source: Source): boolean {
  const same = now.sources[source.id];
  if (source.kind === 'random' || same === undefined) return false;
  const reference = then.referenceOf(source);
  return (
    reference !== null &&
    reference === now.referenceOf(same) &&
    same.standardUncertainty === source.standardUncertainty &&
    same.shape === source.shape
  );
}

/**
 * Puts the errors of two runs into one table. Scatter is each run's own. A calibration error is shared, and cancels as far
 * as it acts alike, only where the same calibration was in force in both; else it is counted in each. An error of the same
 * instrument that outlived a recalibration is so counted twice, which widens a difference rather than narrowing it.
 *
 * @param now - one run [-]
 * @param other - the run that it is held against [-]
 * @returns what names and states values of both [-]
 *
 * Source: JCGM 100:2008, 5.2.2 and F.1.2.3 (errors common to two results).
 */
export function heldAgainst(now: RunErrors, other: RunErrors): HeldAgainst {
  const shared = new Set(
    Object.values(other.sources)
      .filter((source) => isShared(now, other, source))
      .map(({ id }) => id),
  );
  const idThen = (id: string): string => (shared.has(id) ? id : `${other.runId}.${id}`);
  const table = mergeSources(
    Object.values(now.sources),
    Object.values(other.sources)
      .filter(({ id }) => !shared.has(id))
      .map((source) => ({
        ...source,
        id: idThen(source.id),
        label: `${source.label} (${other.label})`,
        pooledAs: source.pooledAs === null ? null : `${other.runId}.${source.pooledAs}`,
      })),
  );
  return {
    ofOther: ({ value, sensitivities }) => ({
      value,
      sensitivities: Object.fromEntries(Object.entries(sensitivities).map(([id, by]) => [idThen(id), by])),
    }),
    state: (uncertain) => stateUncertainty(uncertain, table),
    sharedSourceIds: [...shared],
  };
}
