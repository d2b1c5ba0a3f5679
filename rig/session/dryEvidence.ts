import { fittedTogether } from '../../analysis/dryLift/fittedTogether.ts';
import { drySeries } from '../../analysis/dryLift/series/drySeries.ts';
import { deliveryToFit, runsToFit } from '../../analysis/dryLift/series/runsToFit.ts';
import type { AnalysedDryRun } from '../../analysis/dryLift/series/seriesStart.ts';
import type { Outcome } from '../../analysis/outcome.ts';
import type { DrySeries } from '../../analysis/resultSchema/drySeriesSchema.ts';
import type { DryTogether } from '../../analysis/resultSchema/dryTogetherSchema.ts';
import type { RefusalResult } from '../../analysis/resultSchema/statedSchema.ts';
import type { Archive } from '../archive/openArchive.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';
import { readStoredResult } from './analyseStoredRun.ts';

/** What all dry starts of a pump say beside one of its runs. */
export type DryEvidence = {
  /** Starts prepared like the run's; null: a blanked run, or a start that could not be read. */
  readonly series: DrySeries | null;
  /** Its fit together with the other kind of dry start, where there is one. */
  readonly together: Outcome<DryTogether, RefusalResult>;
};

const DRY_KINDS: readonly string[] = ['dryLift', 'blanked'];

/** Fits are kept while the program runs, by the runs that they are of and what was taken out of the delivery run's law. */
const MOST_KEPT = 50;
const kept = new Map<string, DryEvidence['together']>();

/** Sealed runs of a pump with their results; what was not analysed yet by this version of the analysis is analysed now. */
function runsOfPump(archive: Archive, pumpId: string): readonly AnalysedDryRun[] {
  return archive
    .listRuns()
    .filter((entry) => entry.pumpId === pumpId && entry.ending !== 'open')
    .map(({ id }): AnalysedDryRun => {
      const { sealed, result } = readStoredResult(archive, id);
      return { run: sealed.run, closing: sealed.closing, result };
    });
}

function together(archive: Archive, of: AnalysedDryRun, all: readonly AnalysedDryRun[]): DryEvidence['together'] {
  // A start that was wet, or could not be fitted by itself, joins no other.
  const own = of.result.dryLift?.estimate;
  if (own?.ok === false) return own;
  const runs = runsToFit(of, all);
  const delivery = deliveryToFit(of, all);
  const capacityRests = delivery === null ? null : [delivery.run.id, delivery.result.exclusions];
  const key = JSON.stringify([archive.directory, runs.map(({ run }) => run.id), capacityRests]);
  const known = kept.get(key);
  if (known !== undefined) return known;
  const read = runs.map((analysed) => {
    const { folder, run } = archive.readRun(analysed.run.id);
    return { ...analysed, readings: readRunReadings(folder, run).readings };
  });
  const fitted = fittedTogether(read, delivery);
  if (kept.size >= MOST_KEPT) kept.clear();
  kept.set(key, fitted);
  return fitted;
}

/**
 * What the dry starts of a run's pump say together.
 *
 * @param archive - where the runs are [-]
 * @param runId - a dry-lift or blanked run [-]
 * @returns series and joint fit; null: the run is of another kind [-]
 * @throws RunError, ChangedError or JournalError if a run is missing, not sealed, or not as it was sealed
 */
export function dryEvidence(archive: Archive, runId: string): DryEvidence | null {
  const { sealed, result } = readStoredResult(archive, runId);
  const { run, closing } = sealed;
  if (!DRY_KINDS.includes(run.kind)) return null;
  const all = runsOfPump(archive, run.pump.id);
  const series = drySeries(all).find(({ starts }) => starts.some((start) => start.runId === runId)) ?? null;
  return { series, together: together(archive, { run, closing, result }, all) };
}
