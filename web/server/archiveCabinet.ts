import { compareRuns } from '../../analysis/againstTheory/compareRuns.ts';
import { placeMarks } from '../../analysis/placeMarks.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { Archive } from '../../rig/archive/openArchive.ts';
import { openStoredRun } from '../../rig/session/analyseStoredRun.ts';
import { dryEvidence } from '../../rig/session/dryEvidence.ts';
import { earlierRuns } from '../../rig/session/earlierRuns.ts';
import { excludeHold } from '../../rig/session/excludeHold.ts';
import { Listeners } from '../../rig/session/listeners.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import { ReadingsShelf } from '../../rig/session/readingsShelf.ts';
import type { RunView, StartDefaults } from '../api.ts';
import type { CertificateCabinet } from './certificateFiling.ts';
import type { FilingCabinet } from './dependencies.ts';
import { pumpHistory } from './pumpHistory.ts';
import { RequestError } from './refusals.ts';

/** So many of the newest runs are looked at for one of the same bench. */
const RUNS_LOOKED_AT = 10;

function viewOf(archive: Archive, runId: string): RunView {
  const { sealed, result, drawn } = openStoredRun(archive, runId);
  const { run, closing, marks } = sealed;
  return {
    run,
    closing,
    marks: placeMarks(marks, drawn.firstArrivalUs, drawn.speedUp),
    result,
    comparison: compareRuns({ run, result }, earlierRuns(archive, run)),
  };
}

/** Oil, set-up and operator of the last run on this bench; else what the practice bench has, and says so. */
function defaultsFor(archive: Archive, bench: BenchRecord, isPractice: boolean): StartDefaults {
  const sealed = archive.listRuns().filter(({ ending }) => ending !== 'open');
  for (const { id } of sealed.slice(0, RUNS_LOOKED_AT)) {
    const { run } = archive.readRun(id);
    if (run.bench.id === bench.id) {
      return { origin: 'last run', operator: run.operator, oil: run.oil, setUp: run.setUp };
    }
  }
  const origin = isPractice ? 'practice bench' : 'example';
  return { origin, operator: '', oil: PRACTICE_OIL, setUp: PRACTICE_RUN_SET_UP };
}

/** The archive as the server sees it; filing is the certificate's own business. */
export function archiveCabinet(
  archive: Archive,
  bench: BenchRecord,
  isPractice: boolean,
  filing: CertificateCabinet,
): FilingCabinet {
  const shelf = new ReadingsShelf(archive);
  const known = (runId: string): string => {
    if (archive.listRuns().some(({ id }) => id === runId)) return runId;
    throw new RequestError(404, 'UNKNOWN_RUN', `No run is called ${runId}.`);
  };
  const testDayListeners = new Listeners<string>();
  const knownPump = (pumpId: string): string => {
    if (archive.listPumps().some(({ id }) => id === pumpId)) return pumpId;
    throw new RequestError(404, 'UNKNOWN_PUMP', `No pump record is called ${pumpId}.`);
  };
  return {
    saveStrip: async (record) => archive.saveStrip(record, 'the strip sheet'),
    readPumpHistory: async (pumpId) => pumpHistory(archive, knownPump(pumpId)),
    readTestDay: async (pumpId) => archive.testDays.read(knownPump(pumpId)),
    addToTestDay: async (pumpId, request) => {
      const entries = archive.testDays.add(knownPump(pumpId), { ...request, atUtc: new Date().toISOString() });
      testDayListeners.tell(pumpId);
      return entries;
    },
    onTestDay: (listener) => testDayListeners.add(listener),
    listPumps: async () => archive.listPumps(),
    savePump: async (record) => archive.savePump(record, 'the pump record'),
    listRuns: async () => archive.listRuns(),
    find: async (criteria) => archive.find(criteria),
    readRunRecord: async (runId) => archive.glanceRun(known(runId)),
    readRunView: async (runId) => viewOf(archive, known(runId)),
    readDryEvidence: async (runId) => {
      const evidence = dryEvidence(archive, known(runId));
      if (evidence === null) throw new RequestError(404, 'NO_DRY_START', `Run ${runId} is no dry start.`);
      return evidence;
    },
    excludeHold: async (runId, request) => {
      excludeHold(archive, known(runId), request);
      return viewOf(archive, runId);
    },
    readRunWindow: async (runId, { fromS, toS, dots }) => shelf.window(known(runId), fromS, toS, dots),
    readRunReadings: async (runId) => openStoredRun(archive, known(runId)).drawn.readings,
    startDefaults: async () => defaultsFor(archive, bench, isPractice),
    ...filing,
  };
}
