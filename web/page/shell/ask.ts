import type { CertificateData } from '../../../analysis/certificate/certificateData.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import type { StripSheet } from '../../../analysis/records/stripSheet.ts';
import type { TestDayEntry } from '../../../analysis/records/testDayEntry.ts';
import type {
  ApiRefusal,
  BenchRecord,
  CalibrationRequest,
  CertificateCheck,
  CertificateListEntry,
  DryEvidence,
  ExcludeHoldRequest,
  FileCertificateRequest,
  FoundPage,
  MarkRequest,
  PracticeRequest,
  PumpHistory,
  PumpList,
  ReadingsWindow,
  RunListEntry,
  RunReadings,
  RunView,
  StartDefaults,
  StartRunRequest,
  StopRunRequest,
  TestDayRequest,
  VerifyRequest,
  WithdrawCertificateRequest,
  ZeroCheckRequest,
  ZeroCheckView,
} from '../../api.ts';

/** What the server refused, or that it could not be reached, in words for the page. */
class Refused extends Error {
  constructor(readonly refusal: ApiRefusal) {
    super(refusal.message);
    this.name = 'Refused';
  }
}

async function refusalIn(response: Response): Promise<ApiRefusal> {
  try {
    // Server and page are built from one tree: the shape of an answer is agreed in web/api.ts.
    const body: ApiRefusal = await response.json();
    return body;
  } catch {
    return { code: 'NO_JSON', message: `The server answered ${response.status} without a reason.` };
  }
}

async function answer(path: string, init?: RequestInit): Promise<Response> {
  let response: Response;
  try {
    response = await fetch(path, init);
  } catch {
    throw new Refused({
      code: 'NOT_REACHED',
      message: 'The program does not answer: it may have been ended. Start it again, then reload this page.',
    });
  }
  if (!response.ok) throw new Refused(await refusalIn(response));
  return response;
}

function post(path: string, body: unknown): Promise<Response> {
  return answer(path, {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify(body),
  });
}

async function get<Answer>(path: string, init?: RequestInit): Promise<Answer> {
  const body: Answer = await (await answer(path, init)).json();
  return body;
}

function nullWhereUnknown(error: unknown): null {
  if (error instanceof Refused && error.refusal.code.startsWith('UNKNOWN_')) return null;
  throw error;
}

/** Every question the page can put to the server. */
export const ask = {
  runs: () => get<readonly RunListEntry[]>('/api/runs'),
  run: (id: string) => get<RunView>(`/api/runs/${encodeURIComponent(id)}`),
  runRecord: (id: string) => get<RunRecord>(`/api/runs/${encodeURIComponent(id)}/record`),
  dryEvidence: (id: string) => get<DryEvidence>(`/api/runs/${encodeURIComponent(id)}/dry-evidence`),
  readings: (id: string) => get<RunReadings>(`/api/runs/${encodeURIComponent(id)}/readings`),
  window: (id: string, from: string, to: string, dots: number, signal: AbortSignal) =>
    get<ReadingsWindow>(`/api/runs/${encodeURIComponent(id)}/window?from=${from}&to=${to}&dots=${dots}`, { signal }),
  excludeHold: async (id: string, request: ExcludeHoldRequest): Promise<RunView> => {
    const view: RunView = await (await post(`/api/runs/${encodeURIComponent(id)}/exclusions`, request)).json();
    return view;
  },
  pumps: () => get<PumpList>('/api/pumps'),
  savePump: async (record: PumpRecord): Promise<PumpRecord> => (await post('/api/pumps', record)).json(),
  saveStrip: async (record: StripSheet): Promise<StripSheet> => (await post('/api/strips', record)).json(),
  pumpHistory: (pumpId: string) => get<PumpHistory>(`/api/pumps/${encodeURIComponent(pumpId)}/history`),
  bench: () => get<BenchRecord>('/api/bench'),
  calibrate: async (request: CalibrationRequest): Promise<BenchRecord> =>
    (await post('/api/bench/calibrations', request)).json(),
  testDay: (pumpId: string) => get<readonly TestDayEntry[]>(`/api/pumps/${encodeURIComponent(pumpId)}/test-day`),
  addToTestDay: async (pumpId: string, request: TestDayRequest): Promise<readonly TestDayEntry[]> =>
    (await post(`/api/pumps/${encodeURIComponent(pumpId)}/test-day`, request)).json(),
  defaults: () => get<StartDefaults>('/api/defaults'),
  /** As it is listed; null: no certificate has the number. */
  certificate: (number: string): Promise<CertificateListEntry | null> =>
    get<CertificateListEntry>(`/api/certificates/${encodeURIComponent(number)}`).catch(nullWhereUnknown),
  find: (criteria: Readonly<Record<string, string>>) =>
    get<FoundPage>(`/api/find?${new URLSearchParams(Object.entries(criteria)).toString()}`),
  certificateData: (number: string) => get<CertificateData>(`/api/certificates/${encodeURIComponent(number)}.json`),
  verify: async (request: VerifyRequest): Promise<readonly CertificateCheck[]> =>
    (await post('/api/verify', request)).json(),
  withdrawCertificate: async (number: string, request: WithdrawCertificateRequest): Promise<CertificateListEntry> =>
    (await post(`/api/certificates/${encodeURIComponent(number)}/withdrawal`, request)).json(),
  startRun: async (request: StartRunRequest): Promise<RunRecord> => (await post('/api/runs', request)).json(),
  stopRun: (request: StopRunRequest) => post('/api/runs/open/stop', request),
  takeZeroCheck: async (request: ZeroCheckRequest): Promise<ZeroCheckView> => {
    const view: ZeroCheckView = await (await post('/api/zero-check', request)).json();
    return view;
  },
  mark: (request: MarkRequest) => post('/api/runs/open/marks', request),
  practice: (request: PracticeRequest) => post('/api/practice', request),
  fileCertificate: async (request: FileCertificateRequest): Promise<CertificateListEntry> => {
    const filed: CertificateListEntry = await (await post('/api/certificates', request)).json();
    return filed;
  },
};
