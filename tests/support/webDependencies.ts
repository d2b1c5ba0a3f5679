import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { compareRuns } from '../../analysis/againstTheory/compareRuns.ts';
import { analyseRun } from '../../analysis/analyseRun.ts';
import { decimate } from '../../analysis/decimate.ts';
import { fittedTogether } from '../../analysis/dryLift/fittedTogether.ts';
import { drySeries } from '../../analysis/dryLift/series/drySeries.ts';
import { placeMarks } from '../../analysis/placeMarks.ts';
import { readingsWindow, searchedReadings } from '../../analysis/readingsWindow.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { pumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { HoldExclusion, RunClosing, RunKind } from '../../analysis/records/runRecord.ts';
import { stripSheet } from '../../analysis/records/stripSheet.ts';
import type { TestDayEntry } from '../../analysis/records/testDayEntry.ts';
import { indexedRun } from '../../rig/archive/indexEntries.ts';
import { BenchError } from '../../rig/errors.ts';
import type { PracticeScenario } from '../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import type {
  CalibrationRequest,
  CertificateCheck,
  CertificateListEntry,
  LiveReading,
  OpenRun,
  RunView,
  SessionState,
  VerifyRequest,
  WithdrawCertificateRequest,
} from '../../web/api.ts';
import type { BenchSession, FilingCabinet, WebDependencies } from '../../web/server/dependencies.ts';
import { type PracticeRun, recordPractice } from './practiceRun.ts';
import { sampleBench, samplePump, sampleStrip } from './samples.ts';

/** As many as the archive draws. */
const MOST_ROWS = 4000;

class NoOpenRunError extends BenchError {
  override readonly code = 'NO_OPEN_RUN';
}

class UnknownRunError extends BenchError {
  override readonly code = 'UNKNOWN_RUN';
}

const NO_RUN: SessionState = {
  connection: { status: 'open', path: '/dev/pts/7', detail: 'open since 08:00:00 UTC' },
  practice: { speedUp: 20 },
  benchId: 'practice-bench',
  linesPerS: 50.2,
  quietForMs: 12,
  badLineCounts: {},
  openRun: null,
  lastSealedRunId: null,
  trouble: null,
};

/** An open run in the middle of its guide. */
export const OPEN_RUN: OpenRun = {
  id: 'run-now',
  kind: 'delivery',
  pumpName: 'Bearing feed pump, reduction gearbox',
  elapsedS: 192,
  lineCount: 9_610,
  oldestUnsyncedMs: 120,
  guide: {
    sentence: 'Set 900 r/min and 3.5 bar; hold until all channels stand still.',
    stepsAre: 'points',
    stepCount: 12,
    stepsDone: 5,
    target: { speedRevPerS: 15, deliveryGaugePressurePa: 3.5e5 },
    stillness: {
      speed: 'steady',
      deliveryPressure: 'settling',
      flow: 'steady',
      suctionPressure: 'steady',
      oilTemperature: 'rising',
    },
    isFinished: false,
    taken: [
      // 13.88 cm³/rev at 15 rev/s less some slip: invented
      { speedRevPerS: 15, differentialPressurePa: 0.7e5, flowM3PerS: 2.08e-4, oilTemperatureK: 318.2 },
      { speedRevPerS: 15, differentialPressurePa: 1.9e5, flowM3PerS: 2.03e-4, oilTemperatureK: 318.4 },
    ],
  },
  limits: [
    { id: 'fastest', channel: 'speed', atMost: 20.6, atLeast: null, whose: 'the fastest speed of this pump' },
    { id: 'relief', channel: 'deliveryPressure', atMost: 5.4e5, atLeast: null, whose: 'the relief valve' },
  ],
  warnings: [],
};

/** A session that remembers what it was told: no bench, no recorder. For tests of routes and of what the page shows. */
class RememberingSession implements BenchSession {
  readonly told: string[] = [];
  #state: SessionState = NO_RUN;
  #stateListeners = new Set<(state: SessionState) => void>();
  #readingsListeners = new Set<(readings: readonly LiveReading[]) => void>();
  #run = recordedRun('dryLift', 'healthy').run;

  state(): SessionState {
    return this.#state;
  }

  setState(change: Partial<SessionState>): void {
    this.#state = { ...this.#state, ...change };
    for (const listener of this.#stateListeners) listener(this.#state);
  }

  pushReadings(readings: readonly LiveReading[]): void {
    for (const listener of this.#readingsListeners) listener(readings);
  }

  get listenerCount(): number {
    return this.#stateListeners.size + this.#readingsListeners.size;
  }

  onState(listener: (state: SessionState) => void): () => void {
    this.#stateListeners.add(listener);
    return () => this.#stateListeners.delete(listener);
  }

  onReadings(listener: (readings: readonly LiveReading[]) => void): () => void {
    this.#readingsListeners.add(listener);
    return () => this.#readingsListeners.delete(listener);
  }

  async startRun(request: Parameters<BenchSession['startRun']>[0]): ReturnType<BenchSession['startRun']> {
    this.told.push(`start ${JSON.stringify(request)}`);
    this.setState({ openRun: { ...OPEN_RUN, id: this.#run.id } });
    return this.#run;
  }

  async takeZeroCheck(request: Parameters<BenchSession['takeZeroCheck']>[0]) {
    this.told.push(`zero ${JSON.stringify(request)}`);
    const entry = { standardUncertainty: 0.001, isApplied: false };
    return {
      zeroCheck: {
        takenAtUtc: '2026-06-01T07:55:00Z',
        channels: [
          { channel: 'flow', offset: 0.012, ...entry },
          { channel: 'deliveryPressure', offset: -0.004, ...entry },
        ],
      },
      unitSymbols: { flow: 'l/min', deliveryPressure: 'bar(g)' },
    };
  }

  async stopRun(reason: string): Promise<RunClosing> {
    if (this.#state.openRun === null) throw new NoOpenRunError('No run is open: there is nothing to stop.');
    this.told.push(`stop ${reason}`);
    this.setState({ openRun: null, lastSealedRunId: this.#run.id });
    return closingOf(this.#run.id);
  }

  async mark(text: string): Promise<void> {
    this.told.push(`mark ${text}`);
  }

  bench(): BenchRecord {
    return sampleBench();
  }

  async calibrate(request: CalibrationRequest) {
    this.told.push(`calibrate ${JSON.stringify(request)}`);
    return sampleBench();
  }

  async commandPractice(text: string): Promise<void> {
    this.told.push(`practice ${text}`);
  }
}

function closingOf(runId: string): RunClosing {
  const sha256 = '0'.repeat(64);
  return {
    format: 'slipwright.closing/1',
    runId,
    ending: 'completed',
    reason: 'all points taken',
    closedAtUtc: '2026-06-01T08:10:00Z',
    lineCount: 1,
    byteLength: 1,
    sha256: { run: sha256, journal: sha256, marks: sha256 },
  };
}

const recorded = new Map<string, PracticeRun>();

/** A run of the practice bench, in process, once per kind and scenario. */
export function recordedRun(kind: RunKind, scenario: PracticeScenario): PracticeRun {
  const key = `${kind} ${scenario}`;
  const known = recorded.get(key) ?? recordPractice(kind, scenario, 7);
  recorded.set(key, known);
  return known;
}

function viewOf({ run, decoded }: PracticeRun, exclusions: readonly HoldExclusion[]): RunView {
  const marks = [{ monotonicUs: 20_000_000, atUtc: '2026-06-01T08:00:20Z', text: 'strainer looked at' }];
  const result = analyseRun({ run, ...decoded, exclusions });
  return {
    run,
    closing: closingOf(run.id),
    marks: placeMarks(marks, decoded.firstArrivalUs, 1),
    result,
    comparison: compareRuns({ run, result }, []),
  };
}

/** The last minutes of a recorded run, as a live line would have brought them. */
export function liveReadingsOf({ decoded }: PracticeRun): readonly LiveReading[] {
  const { elapsedS, channels } = decoded.readings;
  return [...elapsedS].map((atS, row) => ({
    atS,
    values: Object.fromEntries(
      Object.entries(channels).map(([name, column]) => {
        const value = column.values[row] ?? Number.NaN;
        return [name, Number.isNaN(value) ? null : value];
      }),
    ),
  }));
}

/** An archive in memory that holds the given runs, analysed by the real analysis. */
class RememberedArchive implements FilingCabinet {
  readonly #runs: Map<string, { readonly recorded: PracticeRun; readonly view: RunView }>;
  readonly #pdfPath: string;
  #certificates: readonly CertificateListEntry[] = [];

  constructor(runs: readonly PracticeRun[]) {
    this.#runs = new Map(runs.map((run) => [run.run.id, { recorded: run, view: viewOf(run, []) }]));
    this.#pdfPath = join(mkdtempSync(join(tmpdir(), '.slipwright-web-')), 'certificate.pdf');
    writeFileSync(this.#pdfPath, '%PDF-1.7\n% a stand-in for a certificate\n');
  }

  #find(runId: string): { readonly recorded: PracticeRun; readonly view: RunView } {
    const found = this.#runs.get(runId);
    if (found === undefined) throw new UnknownRunError(`No run is called ${runId}.`);
    return found;
  }

  async listPumps() {
    return [samplePump('dredger-feed-pump'), samplePump('dredger-return-pump')];
  }

  readonly #testDay: TestDayEntry[] = [];

  async readTestDay() {
    return this.#testDay;
  }

  async addToTestDay(_pumpId: string, request: Parameters<FilingCabinet['addToTestDay']>[1]) {
    this.#testDay.push({ ...request, atUtc: '2026-06-01T07:00:00Z' });
    return this.#testDay;
  }

  onTestDay() {
    return () => undefined;
  }

  async saveStrip(record: unknown) {
    return stripSheet.parse(record);
  }

  async readPumpHistory(pumpId: string) {
    const none = { derivedCapacityM3PerRev: null, slipAtDutyM3PerS: null, primingTimeS: null };
    const law = [...this.#runs.values()].find(({ view }) => view.run.kind === 'delivery')?.view.result.delivery?.law;
    const capacity = law?.ok === true ? law.value.stated.derivedCapacityM3PerRev : null;
    const runs = (await this.listRuns()).filter((run) => run.pumpId === pumpId);
    return {
      strips: pumpId === 'dredger-feed-pump' ? [sampleStrip('dredger-feed-pump')] : [],
      runs: runs.map((run) => ({
        ...run,
        ...none,
        ...(run.kind === 'delivery' ? { derivedCapacityM3PerRev: capacity } : {}),
      })),
      certificates: this.#certificates,
    };
  }

  async savePump(record: unknown) {
    return pumpRecord.parse(record);
  }

  async listRuns() {
    return [...this.#runs.values()].map(({ view: { run, closing, result } }) => ({
      id: run.id,
      kind: run.kind,
      label: run.label,
      startedAtUtc: run.startedAtUtc,
      pumpId: run.pump.id,
      pumpName: run.pump.name,
      ending: closing.ending,
      outcome: result.outcome,
    }));
  }

  /** Every run, whatever is asked: finding is the archive's own business and tested there. */
  async find({ page, pageSize, what }: Parameters<FilingCabinet['find']>[0]) {
    if (what === 'certificate') {
      const certificates = this.#certificates.map((entry) => ({
        what: 'certificate' as const,
        certificate: {
          ...entry,
          signatory: 'A. Fitter',
          type: 'external gear' as const,
          serialNumber: 'KB-204',
          machine: '',
        },
      }));
      return { total: certificates.length, page, pageSize, found: certificates };
    }
    const found = [...this.#runs.values()].map(({ view: { run, closing, result } }) => ({
      what: 'run' as const,
      run: indexedRun(run, closing, result.outcome).entry,
    }));
    return { total: found.length, page, pageSize, found };
  }

  async readRunRecord(runId: string) {
    const [any] = [...this.#runs.values()];
    const known = this.#runs.get(runId) ?? any;
    if (known === undefined) throw new UnknownRunError(`No run is called ${runId}.`);
    return { ...known.view.run, stripSheet: sampleStrip('dredger-feed-pump') };
  }

  async readRunView(runId: string) {
    return this.#find(runId).view;
  }

  async excludeHold(runId: string, request: Parameters<FilingCabinet['excludeHold']>[1]) {
    const { recorded, view } = this.#find(runId);
    const exclusions = [...view.result.exclusions, { ...request, atUtc: '2026-06-01T09:30:00Z' }];
    const changed = viewOf(recorded, exclusions);
    this.#runs.set(runId, { recorded, view: changed });
    return changed;
  }

  async readDryEvidence(runId: string) {
    const { recorded, view } = this.#find(runId);
    const series = drySeries([view])[0] ?? null;
    return { series, together: fittedTogether([{ ...view, readings: recorded.decoded.readings }], null) };
  }

  async readRunReadings(runId: string) {
    return decimate(this.#find(runId).recorded.decoded.readings, MOST_ROWS);
  }

  async readRunWindow(runId: string, stretch: Parameters<FilingCabinet['readRunWindow']>[1]) {
    const { readings, badLines } = this.#find(runId).recorded.decoded;
    const toS = stretch.toS ?? readings.elapsedS.at(-1) ?? 0;
    return readingsWindow(searchedReadings(readings, badLines), stretch.fromS, toS, stretch.dots);
  }

  async listCertificates() {
    return this.#certificates;
  }

  async certificatePdfPath() {
    return this.#pdfPath;
  }

  async certificateJsonPath(number: string): Promise<string> {
    throw new UnknownRunError(`No certificate has the number ${number}.`);
  }

  async fileCertificate({ runIds }: Parameters<FilingCabinet['fileCertificate']>[0]) {
    const { run, result } = this.#find(runIds[0] ?? '').view;
    const entry: CertificateListEntry = {
      number: `SW-2026-000${this.#certificates.length + 1}`,
      issuedAtUtc: '2026-06-01T09:00:00Z',
      pumpId: run.pump.id,
      pumpName: run.pump.name,
      outcome: result.outcome,
      isSpecimen: true,
      standing: 'issued',
      standingNote: '',
    };
    this.#certificates = [entry, ...this.#certificates];
    return entry;
  }

  async certificateTag() {
    return Buffer.from('%PDF-1.7\n% a stand-in for a tag\n');
  }

  async withdrawCertificate(number: string, { signatory, reason }: WithdrawCertificateRequest) {
    const found = this.#certificates.find((entry) => entry.number === number);
    if (found === undefined) throw new UnknownRunError(`No certificate has the number ${number}.`);
    const standingNote = `withdrawn on 2026-06-02 by ${signatory}: ${reason}`;
    const withdrawn: CertificateListEntry = { ...found, standing: 'withdrawn', standingNote };
    this.#certificates = this.#certificates.map((entry) => (entry === found ? withdrawn : entry));
    return withdrawn;
  }

  async verifyFiles({ files }: VerifyRequest): Promise<readonly CertificateCheck[]> {
    return files.map(({ name }) => ({ state: 'not a certificate', path: name, why: 'It carries no signature.' }));
  }

  async startDefaults() {
    return { origin: 'practice bench' as const, operator: 'A. Fitter', oil: PRACTICE_OIL, setUp: PRACTICE_RUN_SET_UP };
  }
}

export type TestDependencies = WebDependencies & {
  readonly session: RememberingSession;
  readonly archive: RememberedArchive;
};

export function testDependencies(runs: readonly PracticeRun[], pageFolder: string): TestDependencies {
  return { session: new RememberingSession(), archive: new RememberedArchive(runs), pageFolder };
}
