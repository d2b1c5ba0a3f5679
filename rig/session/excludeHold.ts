import type { HoldExclusion } from '../../analysis/records/runRecord.ts';
import type { Archive } from '../archive/openArchive.ts';
import { type AnalysedRun, analyseStoredRun } from './analyseStoredRun.ts';

/** What a person says of a stretch of a run: who, which, out or back in, and why. */
type Exclusion = Omit<HoldExclusion, 'atUtc'>;

/**
 * Takes a stretch of a sealed run out of the fit, or back in, and analyses the run anew. Nothing that was said before is changed.
 *
 * @param archive - where the run is [-]
 * @param runId - its id [-]
 * @param exclusion - who takes which stretch out or back in, and why; the clock says when [s]
 * @returns the run with its new result, which is kept [-]
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed; RecordError if
 * the line is none
 */
export function excludeHold(archive: Archive, runId: string, exclusion: Exclusion): AnalysedRun {
  archive.readRun(runId); // an open or spoiled run takes no line
  archive.addExclusion(runId, { ...exclusion, atUtc: new Date().toISOString() });
  return analyseStoredRun(archive, runId);
}
