import type { AnalysedRun } from '../../analysis/againstTheory/compareRuns.ts';
import { ANALYSIS_VERSION } from '../../analysis/analysisVersion.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';

/** So many earlier runs are looked at, the newest [1]. */
const MOST_RUNS = 12;

/**
 * Earlier delivery runs of a pump, with the results that are kept of them. A run that this version of the analysis has
 * not read yet is passed over: `slipwright analyse` reads it.
 *
 * @param archive - where the runs are [-]
 * @param run - before which they were made [-]
 * @returns runs with their results, newest first [-]
 */
export function earlierRuns(archive: Archive, run: RunRecord): readonly AnalysedRun[] {
  return archive
    .listRuns()
    .filter(
      ({ id, pumpId, kind, startedAtUtc }) =>
        id !== run.id && pumpId === run.pump.id && kind === 'delivery' && startedAtUtc < run.startedAtUtc,
    )
    .slice(0, MOST_RUNS)
    .flatMap(({ id }): readonly AnalysedRun[] => {
      const result = archive.readResult(id, ANALYSIS_VERSION);
      return result === null ? [] : [{ run: archive.glanceRun(id), result }];
    });
}
