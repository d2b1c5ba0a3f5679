import type { RunComparison } from '../analysis/againstTheory/compareRuns.ts';
import type { DecimatedReadings } from '../analysis/decimate.ts';
import type { PlacedMark } from '../analysis/placeMarks.ts';
import type { Handover } from '../analysis/records/handover.ts';
import type { PumpRecord } from '../analysis/records/pumpRecord.ts';
import type { HoldExclusion, RunClosing, RunRecord, ZeroCheck } from '../analysis/records/runRecord.ts';
import type { StripSheet } from '../analysis/records/stripSheet.ts';
import type { TestDayEntry } from '../analysis/records/testDayEntry.ts';
import type { OutcomeWord, RunResult } from '../analysis/result.ts';
import type { Stated } from '../analysis/uncertainty/stated.ts';

/** What travels between server and page. All numbers SI; JSON. */

/** GET /api/runs: newest first. */
export type RunListEntry = {
  readonly id: string;
  readonly kind: RunRecord['kind'];
  readonly label: RunRecord['label'];
  readonly startedAtUtc: string;
  readonly pumpId: string;
  readonly pumpName: string;
  /** How it ended; 'open' while it is being recorded. */
  readonly ending: RunClosing['ending'] | 'open';
  readonly outcome: OutcomeWord | null;
};

/** GET /api/runs/:id */
export type RunView = {
  readonly run: RunRecord;
  readonly closing: RunClosing;
  readonly marks: readonly PlacedMark[];
  readonly result: RunResult;
  /** Beside the earlier runs of its pump; null where this run has no law. */
  readonly comparison: RunComparison | null;
};

/** POST /api/runs/:id/exclusions: a stretch is taken out of the fit, or back in; answered by the new RunView. */
export type ExcludeHoldRequest = Omit<HoldExclusion, 'atUtc'>;

/** GET /api/runs/:id/dry-evidence: of a dry-lift or blanked run, what the pump's dry starts say together. */
export type { DryEvidence } from '../rig/session/dryEvidence.ts';

/** GET /api/runs/:id/readings: at most 4,000 rows, the lowest and highest of each bucket kept; NaN is null. */
export type RunReadings = DecimatedReadings;

/** GET /api/runs/:id/window?from=&to=&dots=: a stretch, the lowest and highest of each dot of each channel kept. */
export type { ReadingsWindow } from '../analysis/readingsWindow.ts';
/**
 * GET /api/find?words=&serialNumber=&machine=&what=&pumpId=&type=&outcome=&from=&to=&page=&pageSize=: pumps, runs and
 * certificates that fit all that is given (FindCriteria; what is empty does not count), a page of them (FoundPage).
 */
export type { FindCriteria, FoundPage } from '../rig/archive/findCriteria.ts';

/** GET /api/certificates/:number: as it is listed. */
export type CertificateListEntry = {
  readonly number: string;
  readonly issuedAtUtc: string;
  readonly pumpId: string;
  readonly pumpName: string;
  readonly outcome: OutcomeWord;
  readonly isSpecimen: boolean;
  /** Whether it still speaks for its pump. */
  readonly standing: 'issued' | 'replaced' | 'withdrawn';
  /** 'replaced by 2026-0003: why', 'withdrawn on 2026-12-01 by whom: why'; empty where it stands. */
  readonly standingNote: string;
};

/** POST /api/certificates */
export type FileCertificateRequest = {
  readonly runIds: readonly string[];
  readonly signatory: string;
  /** The certificate whose place the new one takes; left out: none's. */
  readonly replaces?: { readonly number: string; readonly reason: string } | undefined;
  /** What is stated on the day the pump is sealed; left out: nothing. */
  readonly handover?: Handover | undefined;
  /** Left out: A4. */
  readonly paper?: 'A4' | 'letter' | undefined;
};

/** GET /api/certificates/:number.pdf; the tie-on tag is /api/certificates/:number.tag.pdf */

/** POST /api/certificates/:number/withdrawal; answered by the certificate as it is listed from then on. */
export type WithdrawCertificateRequest = { readonly signatory: string; readonly reason: string };

/** POST /api/verify: files as they were dropped; a .jws belongs to the .json of the same name. Answered by CertificateCheck[]. */
export type VerifyRequest = { readonly files: readonly { readonly name: string; readonly base64: string }[] };
export type { CertificateCheck } from '../rig/certificate/certificateCheck.ts';

/** POST /api/runs */
export type StartRunRequest = {
  readonly kind: RunRecord['kind'];
  readonly pumpId: string;
  readonly label: RunRecord['label'];
  readonly operator: string;
  readonly oil: RunRecord['oil'];
  readonly setUp: RunRecord['setUp'];
  /** As taken on this bench, with what is to be taken off; null: none. */
  readonly zeroCheck: ZeroCheck | null;
  /** A practice bench is stepped by hand, not by the guide. On any other bench the hand does it anyway. */
  readonly isByHand: boolean;
};

/** POST /api/zero-check: what the tubes are filled with and the air weighs, as typed into the start form. */
export type ZeroCheckRequest = { readonly barometerPa: number; readonly oilDensityKgPerM3: number };

/** What it said; offsets in each channel's own unit, whose symbol stands beside. */
export type ZeroCheckView = {
  readonly zeroCheck: ZeroCheck;
  readonly unitSymbols: Readonly<Record<string, string>>;
};

/** GET /api/defaults: what the start form is filled with; the last run's own set-up where there is one. */
export type StartDefaults = {
  /** Where the numbers come from; an example must be replaced before it is believed. */
  readonly origin: 'last run' | 'practice bench' | 'example';
  readonly operator: string;
  readonly oil: RunRecord['oil'];
  readonly setUp: RunRecord['setUp'];
};

/** Every refusal of the server: HTTP 4xx or 5xx with this body. */
export type ApiRefusal = { readonly code: string; readonly message: string };

/** POST /api/runs/open/stop, /api/runs/open/marks, /api/practice */
export type StopRunRequest = { readonly reason: string };
export type MarkRequest = { readonly text: string };
export type PracticeRequest = { readonly command: string };

/** POST /api/pumps/:id/test-day: a day begun, a step done, skipped or taken back; answered by all entries, oldest first. */
export type TestDayRequest = Omit<TestDayEntry, 'atUtc'>;

/** A run in the history of its pump, with what it says; null where it says nothing of it. */
export type HistoryRun = RunListEntry & {
  readonly derivedCapacityM3PerRev: Stated | null;
  /** At the first operating point of the duty. */
  readonly slipAtDutyM3PerS: Stated | null;
  readonly primingTimeS: Stated | null;
};

/** GET /api/pumps/:id/history: each newest first. */
export type PumpHistory = {
  readonly strips: readonly StripSheet[];
  readonly runs: readonly HistoryRun[];
  readonly certificates: readonly CertificateListEntry[];
};

/** GET /api/bench: the record of the bench that is listened to. */
export type { BenchRecord } from '../analysis/records/benchRecord.ts';

/** POST /api/bench/calibrations: a channel's new calibration; answered by the bench record, which counts from the next run on. */
export type CalibrationRequest = { readonly channel: string; readonly calibration: unknown };

/** GET /api/pumps */
export type PumpList = readonly PumpRecord[];

/** GET /api/live: events 'state' (SessionState), 'readings' (LiveReading[]) and 'testDay' (id of its pump). */
export type { LiveReading, OpenRun, SessionState } from '../rig/session/sessionState.ts';
