import { ANALYSIS_VERSION, analyseRun } from '../../analysis/analyseRun.ts';
import type { RunResult } from '../../analysis/result.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { SealedRun } from '../archive/runStore.ts';
import type { DecodedRun } from '../decode/decodeJournal.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';

export type AnalysedRun = { readonly sealed: SealedRun; readonly decoded: DecodedRun; readonly result: RunResult };

/**
 * Reads a sealed run and checks it against its closing.
 *
 * @param archive - where the run is [-]
 * @param runId - its id [-]
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed
 */
export function readStoredRun(archive: Archive, runId: string): Pick<AnalysedRun, 'sealed' | 'decoded'> {
  const sealed = archive.readRun(runId);
  return { sealed, decoded: readRunReadings(sealed.folder, sealed.run) };
}

/** As {@link readStoredRun}, and analyses it anew; the result is kept beside it. */
export function analyseStoredRun(archive: Archive, runId: string): AnalysedRun {
  const { sealed, decoded } = readStoredRun(archive, runId);
  const { readings, census, isPractice } = decoded;
  const result = analyseRun({ run: sealed.run, readings, census, isPractice, exclusions: [] });
  archive.saveResult(runId, result);
  return { sealed, decoded, result };
}

/** As {@link readStoredRun}, with the kept result where this version of the analysis made it. */
export function openStoredRun(archive: Archive, runId: string): AnalysedRun {
  const kept = archive.readResult(runId, ANALYSIS_VERSION);
  return kept === null ? analyseStoredRun(archive, runId) : { ...readStoredRun(archive, runId), result: kept };
}
