import type { ChannelName } from '../../analysis/channels.ts';
import type { BenchLimit } from '../../analysis/guide/benchLimits.ts';
import type { BenchWarning } from '../../analysis/guide/benchWatch.ts';
import type { GuideState } from '../../analysis/guide/guideState.ts';
import type { BadLineKind } from '../../analysis/readings.ts';
import type { RunKind } from '../../analysis/records/runRecord.ts';

/** What the bench is doing now, as the page and the command line show it. Plain JSON. */
export type SessionState = {
  readonly connection: {
    readonly status: 'open' | 'waiting' | 'closed';
    readonly path: string;
    /** In words: why it waits, or since when it is open. */
    readonly detail: string;
  };
  /** The bench on the line announced itself as a practice bench. */
  readonly practice: { readonly speedUp: number } | null;
  readonly benchId: string;
  readonly linesPerS: number;
  /** Since the last line of any kind; null: none has come yet [ms]. */
  readonly quietForMs: number | null;
  readonly badLineCounts: Readonly<Partial<Record<BadLineKind, number>>>;
  readonly openRun: OpenRun | null;
  /** The run that was sealed last while this program ran; it may have ended by itself. */
  readonly lastSealedRunId: string | null;
  /** What went wrong and nobody asked for: a run that the disk ended, say. Null when all is well. */
  readonly trouble: string | null;
};

export type OpenRun = {
  readonly id: string;
  readonly kind: RunKind;
  readonly pumpName: string;
  readonly elapsedS: number;
  readonly lineCount: number;
  /** Age of the oldest line that is not yet on the disk. */
  readonly oldestUnsyncedMs: number;
  readonly guide: GuideState;
  /** What is watched, in SI. */
  readonly limits: readonly BenchLimit[];
  /** What was passed, the latest first. */
  readonly warnings: readonly BenchWarning[];
};

/** A reading as it is shown live: SI, NaN replaced by null. */
export type LiveReading = {
  /** Bench time [s], the same scale as a run's elapsed time but from an arbitrary zero. */
  readonly atS: number;
  readonly values: Readonly<Partial<Record<ChannelName, number | null>>>;
};
