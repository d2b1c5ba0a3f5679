import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { PumpRecord } from '../../analysis/records/pumpRecord.ts';
import type { RunClosing, RunRecord } from '../../analysis/records/runRecord.ts';
import type { StripSheet } from '../../analysis/records/stripSheet.ts';
import type { TestDayEntry } from '../../analysis/records/testDayEntry.ts';
import type { LiveReading, SessionState } from '../../rig/session/sessionState.ts';
import type {
  CalibrationRequest,
  CertificateCheck,
  CertificateListEntry,
  DryEvidence,
  ExcludeHoldRequest,
  FileCertificateRequest,
  FindCriteria,
  FoundPage,
  PumpHistory,
  ReadingsWindow,
  RunListEntry,
  RunReadings,
  RunView,
  StartDefaults,
  StartRunRequest,
  TestDayRequest,
  VerifyRequest,
  WithdrawCertificateRequest,
  ZeroCheckRequest,
  ZeroCheckView,
} from '../api.ts';

type Unsubscribe = () => void;

/** The bench as the server sees it. Refusals are thrown as BenchError: their code and message go to the page. */
export type BenchSession = {
  state(): SessionState;
  onState(listener: (state: SessionState) => void): Unsubscribe;
  onReadings(listener: (readings: readonly LiveReading[]) => void): Unsubscribe;
  startRun(request: StartRunRequest): Promise<RunRecord>;
  /** Watches the bench at rest for some seconds. */
  takeZeroCheck(request: ZeroCheckRequest): Promise<ZeroCheckView>;
  stopRun(reason: string): Promise<RunClosing>;
  mark(text: string): Promise<void>;
  commandPractice(text: string): Promise<void>;
  bench(): BenchRecord;
  /** Files the bench record with this calibration; it counts from the next run on. */
  calibrate(request: CalibrationRequest): Promise<BenchRecord>;
};

/** The filing cabinet as the server sees it. An unknown id is a BenchError whose code begins with 'UNKNOWN_'. */
export type FilingCabinet = {
  listPumps(): Promise<readonly PumpRecord[]>;
  /** Filed as the next version. A record that is none is a RecordError that names its fields. */
  savePump(record: unknown): Promise<PumpRecord>;
  /** Filed as the next version of the sheet; runs of its pump carry it from then on. */
  saveStrip(record: unknown): Promise<StripSheet>;
  readPumpHistory(pumpId: string): Promise<PumpHistory>;
  /** What was said on the pump's test days, oldest first. */
  readTestDay(pumpId: string): Promise<readonly TestDayEntry[]>;
  addToTestDay(pumpId: string, request: TestDayRequest): Promise<readonly TestDayEntry[]>;
  /** Of each pump whose test day went on, at whichever browser. */
  onTestDay(listener: (pumpId: string) => void): Unsubscribe;
  listRuns(): Promise<readonly RunListEntry[]>;
  /** Pumps, runs and certificates by words and properties, page by page. */
  find(criteria: FindCriteria): Promise<FoundPage>;
  /** What was true before the first byte; of an open run too. */
  readRunRecord(runId: string): Promise<RunRecord>;
  readRunView(runId: string): Promise<RunView>;
  /** Of a dry-lift or blanked run. */
  readDryEvidence(runId: string): Promise<DryEvidence>;
  /** Thinned out to be drawn. */
  readRunReadings(runId: string): Promise<RunReadings>;
  /** A stretch of it for so many dots across; up to its last reading where toS is null [s]. */
  readRunWindow(
    runId: string,
    stretch: { readonly fromS: number; readonly toS: number | null; readonly dots: number },
  ): Promise<ReadingsWindow>;
  /** Keeps what a person said of a stretch of a run, and analyses the run anew. */
  excludeHold(runId: string, request: ExcludeHoldRequest): Promise<RunView>;
  listedCertificate(number: string): Promise<CertificateListEntry>;
  /** Absolute path of a filed certificate. */
  certificatePdfPath(number: string): Promise<string>;
  /** Of its data, as they were signed. */
  certificateJsonPath(number: string): Promise<string>;
  /** The tie-on tag of a filed certificate, as PDF. */
  certificateTag(number: string): Promise<Buffer>;
  fileCertificate(request: FileCertificateRequest): Promise<CertificateListEntry>;
  withdrawCertificate(number: string, request: WithdrawCertificateRequest): Promise<CertificateListEntry>;
  /** Certificates that somebody brought. */
  verifyFiles(request: VerifyRequest): Promise<readonly CertificateCheck[]>;
  startDefaults(): Promise<StartDefaults>;
};

export type WebDependencies = {
  readonly session: BenchSession;
  readonly archive: FilingCabinet;
  /** Folder of the built page. */
  readonly pageFolder: string;
};
