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
import { pumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { HoldExclusion } from '../../analysis/records/runRecord.ts';
import { stripSheet } from '../../analysis/records/stripSheet.ts';
import type { TestDayEntry } from '../../analysis/records/testDayEntry.ts';
import { indexedRun } from '../../rig/archive/indexEntries.ts';
import { BenchError } from '../../rig/errors.ts';
import { PRACTICE_OIL, PRACTICE_RUN_SET_UP } from '../../rig/session/practiceConditions.ts';
import type {
  CertificateCheck,
  CertificateListEntry,
  RunView,
  VerifyRequest,
  WithdrawCertificateRequest,
} from '../../web/api.ts';
import type { FilingCabinet } from '../../web/server/dependencies.ts';
import type { PracticeRun } from './practiceRun.ts';
import { closingOf } from './recordedRun.ts';
import { samplePump, sampleStrip } from './samples.ts';

/** As many as the archive draws. */
const MOST_ROWS = 4000;

class UnknownRunError extends BenchError {
  override readonly code = 'UNKNOWN_RUN';
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

/** An archive in memory that holds the given runs, analysed by the real analysis. */
export class RememberedArchive implements FilingCabinet {
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

  async listedCertificate(number: string) {
    const found = this.#certificates.find((entry) => entry.number === number);
    if (found === undefined) throw new UnknownRunError(`No certificate has the number ${number}.`);
    return found;
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
    const found = await this.listedCertificate(number);
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
