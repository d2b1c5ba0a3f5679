import { ANALYSIS_VERSION, analyseRun } from '../../analysis/analyseRun.ts';
import type { RunResult } from '../../analysis/result.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { SealedRun } from '../archive/runStore.ts';
import type { DecodedRun } from '../decode/decodeJournal.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';

export type AnalysedRun = { readonly sealed: SealedRun; readonly decoded: DecodedRun; readonly result: RunResult };

/**
 * Reads a sealed run, checks it against its closing, and analyses it; the result is kept beside it.
 *
 * @param archive - where the run is [-]
 * @param runId - its id [-]
 * @returns run, readings and result [-]
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed
 */
export function analyseStoredRun(archive: Archive, runId: string): AnalysedRun {
  const sealed = archive.readRun(runId);
  const decoded = readRunReadings(sealed.folder, sealed.run);
  const result = analyseRun({
    run: sealed.run,
    readings: decoded.readings,
    census: decoded.census,
    isPractice: decoded.isPractice,
  });
  archive.saveResult(runId, result);
  return { sealed, decoded, result };
}

/** The kept result where this version of the analysis made it; made anew otherwise. The run is checked either way. */
export function resultOfStoredRun(
  archive: Archive,
  runId: string,
): { readonly sealed: SealedRun; readonly result: RunResult } {
  const kept = archive.readResult(runId, ANALYSIS_VERSION);
  return kept === null ? analyseStoredRun(archive, runId) : { sealed: archive.readRun(runId), result: kept };
}
