import type { AnalysedDryRun, SeriesStart } from './seriesStart.ts';

/** Kinds of run in which the pump is full of oil. */
const FLOODING_KINDS: readonly string[] = ['delivery', 'suction', 'relief'];

type JudgedStart = { readonly start: SeriesStart; readonly whyNotCounted: string | null };

/** Whether a run filled the pump with oil. */
function hasFlooded({ run, result }: AnalysedDryRun): boolean {
  if (FLOODING_KINDS.includes(run.kind)) return true;
  const priming = result.dryLift?.priming;
  return run.kind === 'dryLift' && priming?.ok === true && priming.value.primed;
}

/**
 * Which starts count. In classes W0 and W1 nothing may have filled the pump since it was mounted: what was once flooded is no
 * longer washed or freshly oiled, and every class is gone but W2 until the pump is stripped. In W2 and W3 every start counts.
 *
 * @param alike - starts prepared alike, by their record, oldest first [-]
 * @param all - every run of the pump that is known, oldest first [-]
 * @returns each start, with the reason where it does not count [-]
 */
export function countedStarts(alike: readonly SeriesStart[], all: readonly AnalysedDryRun[]): readonly JudgedStart[] {
  return alike.map((start) => {
    const { run } = start;
    if (run.setUp.wetness !== 'W0' && run.setUp.wetness !== 'W1') return { start, whyNotCounted: null };
    const flooding = all.find(
      (other) => other.run.mounting === run.mounting && other.run.startedAtUtc < run.startedAtUtc && hasFlooded(other),
    );
    const whyNotCounted =
      flooding === undefined
        ? null
        : `Run ${flooding.run.id} filled the pump with oil in the same mounting: it was no longer in class ${run.setUp.wetness}.`;
    return { start, whyNotCounted };
  });
}
