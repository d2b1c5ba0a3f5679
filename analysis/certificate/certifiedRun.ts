import type { RunClosing, RunRecord } from '../records/runRecord.ts';
import type { RunResult } from '../result.ts';

/** A sealed run with what its analysis yielded. */
export type CertifiedRun = {
  readonly run: RunRecord;
  readonly closing: RunClosing;
  readonly result: RunResult;
};
