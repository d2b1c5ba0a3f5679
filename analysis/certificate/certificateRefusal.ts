import type { RunClosing } from '../records/runRecord.ts';
import type { Finding } from '../result.ts';

/** Why the data do not allow a certificate. */
export type CertificateRefusal =
  | { readonly code: 'NO_RUNS'; readonly text: string }
  | { readonly code: 'SAME_RUN_TWICE'; readonly runId: string; readonly text: string }
  | { readonly code: 'DIFFERENT_PUMPS'; readonly runIds: readonly [string, string]; readonly text: string }
  | { readonly code: 'NOT_WHOLE'; readonly runId: string; readonly ending: RunClosing['ending']; readonly text: string }
  | {
      readonly code: 'CALIBRATION_OUT_OF_DATE';
      readonly runId: string;
      readonly channel: string;
      readonly dueOn: string;
      readonly runOn: string;
      readonly text: string;
    }
  | { readonly code: 'NOT_FIT'; readonly runId: string; readonly finding: Finding; readonly text: string };
