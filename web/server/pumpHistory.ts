import { ANALYSIS_VERSION } from '../../analysis/analysisVersion.ts';
import type { RunResult } from '../../analysis/result.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import type { HistoryRun, PumpHistory, RunListEntry } from '../api.ts';

/** What a run says that is worth a place in a trend; null where it says nothing of it. */
function headline(result: RunResult | null): Omit<HistoryRun, keyof RunListEntry> {
  const law = result?.delivery?.law;
  const priming = result?.dryLift?.priming;
  return {
    derivedCapacityM3PerRev: law?.ok === true ? law.value.stated.derivedCapacityM3PerRev : null,
    slipAtDutyM3PerS: result?.delivery?.fitted?.outlook[0]?.slipM3PerS ?? null,
    primingTimeS: priming?.ok === true && priming.value.primed ? priming.value.primingTimeS : null,
  };
}

/** Everything that was done to a pump: strip sheets, sealed runs with what they say, certificates; each newest first. */
export function pumpHistory(archive: Archive, pumpId: string): PumpHistory {
  const runs = archive.listRuns().filter((run) => run.pumpId === pumpId && run.ending !== 'open');
  return {
    strips: archive
      .listStrips()
      .filter((sheet) => sheet.pumpId === pumpId)
      .toSorted((a, b) => b.measuredOn.localeCompare(a.measuredOn)),
    // What an older version of the analysis made is passed over: the run is read anew when it is opened.
    runs: runs.map((run) => ({ ...run, ...headline(archive.readResult(run.id, ANALYSIS_VERSION)) })),
    certificates: archive.certificatesOf(pumpId),
  };
}
