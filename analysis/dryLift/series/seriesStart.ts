import type { RunClosing, RunRecord } from '../../records/runRecord.ts';
import type { RunResult } from '../../result.ts';
import type { Stated } from '../../uncertainty/stated.ts';

/** A sealed run of a pump with what its analysis yielded. */
export type AnalysedDryRun = {
  readonly run: RunRecord;
  readonly closing: Pick<RunClosing, 'closedAtUtc'>;
  readonly result: RunResult;
};

/** A dry-lift run whose start could be read. */
export type SeriesStart = AnalysedDryRun & {
  readonly speedRevPerS: number;
  readonly staticLiftM: number;
  /** Null: no oil came. */
  readonly primingTimeS: Stated | null;
  readonly watchedForS: number | null;
};
