import { analyseRun } from '../../analysis/analyseRun.ts';
import { ANALYSIS_VERSION } from '../../analysis/analysisVersion.ts';
import { decimate } from '../../analysis/decimate.ts';
import type { TrialRequest } from '../../analysis/monteCarlo/runTrials.ts';
import { placeMarks } from '../../analysis/placeMarks.ts';
import type { RunResult } from '../../analysis/result.ts';
import type { DrawnRun } from '../archive/drawnRun.ts';
import type { Archive } from '../archive/openArchive.ts';
import type { SealedRun } from '../archive/runStore.ts';
import type { DecodedRun } from '../decode/decodeJournal.ts';
import { readRunReadings } from '../decode/readRunReadings.ts';
import { decimatedBeside } from './decimatedBeside.ts';

export type AnalysedRun = { readonly sealed: SealedRun; readonly decoded: DecodedRun; readonly result: RunResult };

/**
 * Reads a sealed run and checks it against its closing.
 *
 * @param archive - where the run is [-]
 * @param runId - its id [-]
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed
 */
function readStoredRun(archive: Archive, runId: string): Pick<AnalysedRun, 'sealed' | 'decoded'> {
  const sealed = archive.readRun(runId);
  return { sealed, decoded: readRunReadings(sealed.folder, sealed.run) };
}

/** As {@link readStoredRun}, and analyses it anew, with Monte Carlo trials where they are asked for; the result is kept beside it. */
export function analyseStoredRun(archive: Archive, runId: string, trials: TrialRequest | null = null): AnalysedRun {
  const { sealed, decoded } = readStoredRun(archive, runId);
  const analysed = analyseDecoded(archive, sealed, decoded, trials);
  drawnOf(archive, runId, decoded);
  return analysed;
}

/** Rows that are drawn at most: more than a wide screen has dots. */
const DRAWN_ROWS = 4000;

/** What is drawn of a run, kept beside it from the first time on that it is asked for. */
function drawnOf(archive: Archive, runId: string, { readings, firstArrivalUs, speedUp }: DecodedRun): DrawnRun {
  const kept = archive.readDrawn(runId);
  if (kept !== null) return kept;
  const drawn = { readings: decimate(readings, DRAWN_ROWS), firstArrivalUs, speedUp };
  archive.saveDrawn(runId, drawn);
  return drawn;
}

/** Analyses decoded readings; the result is kept beside the run. */
function analyseDecoded(
  archive: Archive,
  sealed: SealedRun,
  decoded: DecodedRun,
  trials: TrialRequest | null = null,
): AnalysedRun {
  const { run } = sealed;
  const { readings, census, isPractice } = decoded;
  const exclusions = archive.readExclusions(run.id);
  const marks = placeMarks(sealed.marks, decoded.firstArrivalUs, decoded.speedUp);
  const result = analyseRun({ run, readings, census, isPractice, exclusions, marks, trials });
  archive.saveResult(run.id, result);
  return { sealed, decoded, result };
}

/** Analyses a run that was just imported, while a thread draws it; result and drawing are kept beside the run. */
export async function analyseImported(archive: Archive, sealed: SealedRun, decoded: DecodedRun): Promise<RunResult> {
  const { readings, firstArrivalUs, speedUp } = decoded;
  const thinned = decimatedBeside(readings, DRAWN_ROWS);
  const { result } = analyseDecoded(archive, sealed, decoded);
  archive.saveDrawn(sealed.run.id, { readings: await thinned, firstArrivalUs, speedUp });
  return result;
}

/** A sealed run with what it says. */
export type ReadRun = { readonly sealed: SealedRun; readonly result: RunResult };

/**
 * What a sealed run says. A result that this version of the analysis made before is taken as it was kept, and the journal
 * compared by its length alone: enough to show, never to certify. Else the run is analysed as {@link analyseStoredRun} does.
 *
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed
 */
export function readStoredResult(archive: Archive, runId: string): ReadRun {
  const kept = archive.readResult(runId, ANALYSIS_VERSION);
  return kept === null ? analyseStoredRun(archive, runId) : { sealed: archive.glanceSealedRun(runId), result: kept };
}

/** A sealed run as it is shown: its result and what is drawn of it. */
export type OpenedRun = ReadRun & { readonly drawn: DrawnRun };

/**
 * Opens a sealed run to be shown. What this version of the program analysed and drew before is taken as it was kept, and the
 * journal compared by its length alone; else the run is read and checked as {@link readStoredRun} does.
 *
 * @throws RunError, ChangedError or JournalError if the run is missing, not sealed, or not as it was sealed
 */
export function openStoredRun(archive: Archive, runId: string): OpenedRun {
  const kept = archive.readResult(runId, ANALYSIS_VERSION);
  const keptDrawn = archive.readDrawn(runId);
  if (kept !== null && keptDrawn !== null) {
    return { sealed: archive.glanceSealedRun(runId), result: kept, drawn: keptDrawn };
  }
  const { sealed, decoded, result } =
    kept === null ? analyseStoredRun(archive, runId) : { ...readStoredRun(archive, runId), result: kept };
  return { sealed, result, drawn: drawnOf(archive, runId, decoded) };
}
