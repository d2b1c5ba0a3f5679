import type { ChannelName } from '../channels.ts';
import { QUALITY } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { type BenchLimit, benchLimits, dryCaseLimit, isPast } from './benchLimits.ts';
import type { ReadingRow } from './readingWindow.ts';

/** A limit that was passed. It stays listed when the reading is back, until the run ends. */
export type BenchWarning = {
  readonly limit: BenchLimit;
  /** Since the run began, when it was passed first [s]. */
  readonly firstS: number;
  /** The farthest that the reading went, in the channel's SI unit. */
  readonly farthest: number;
  readonly isNow: boolean;
};

/** Holds every reading of a run against its limits. */
export type BenchWatch = {
  readonly look: (row: ReadingRow) => void;
  readonly limits: () => readonly BenchLimit[];
  /** Passed limits, the latest first. */
  readonly warnings: () => readonly BenchWarning[];
};

/** One wild reading warns of nothing, so many in a row do [1]. */
const IN_A_ROW = 3;

function farther(limit: BenchLimit, a: number, b: number): number {
  return limit.atMost === null ? Math.min(a, b) : Math.max(a, b);
}

/**
 * Watches a run against {@link benchLimits}. A reading beyond the range of its instrument counts too: it is the very one
 * that matters.
 *
 * @param run - kind, pump, bench and barometer [-]
 * @returns the watch; it is told readings one by one [-]
 */
export function createBenchWatch(run: Pick<RunRecord, 'kind' | 'pump' | 'bench' | 'setUp'>): BenchWatch {
  let limits = benchLimits(run);
  let firstS: number | null = null;
  let isCaseKnown = false;
  const inARow = new Map<string, number>();
  let passed: readonly BenchWarning[] = [];

  function seen(channel: ChannelName, row: ReadingRow): number {
    const quality = row.quality[channel];
    return quality === QUALITY.good || quality === QUALITY.outOfRange
      ? (row.values[channel] ?? Number.NaN)
      : Number.NaN;
  }

  function learnCase(row: ReadingRow): void {
    const caseK = seen('caseTemperature', row);
    if (isCaseKnown || Number.isNaN(caseK)) return;
    isCaseKnown = true;
    const limit = dryCaseLimit(run.kind, caseK);
    if (limit !== null) limits = [...limits.filter(({ channel }) => channel !== 'caseTemperature'), limit];
  }

  return {
    look: (row) => {
      firstS ??= row.atS;
      learnCase(row);
      for (const limit of limits) {
        const value = seen(limit.channel, row);
        const count = isPast(limit, value) ? (inARow.get(limit.id) ?? 0) + 1 : 0;
        inARow.set(limit.id, count);
        const before = passed.find((warning) => warning.limit.id === limit.id);
        if (count < IN_A_ROW) {
          if (before?.isNow === true && !Number.isNaN(value)) passed = replaced(passed, { ...before, isNow: false });
          continue;
        }
        const elapsedS = row.atS - firstS;
        const now: BenchWarning =
          before === undefined
            ? { limit, firstS: elapsedS, farthest: value, isNow: true }
            : { ...before, farthest: farther(limit, before.farthest, value), isNow: true };
        passed = replaced(passed, now);
      }
    },
    limits: () => limits,
    warnings: () => passed,
  };
}

/** The warning in its place; a new one first. */
function replaced(warnings: readonly BenchWarning[], warning: BenchWarning): readonly BenchWarning[] {
  const isOld = warnings.some(({ limit }) => limit.id === warning.limit.id);
  if (!isOld) return [warning, ...warnings];
  return warnings.map((other) => (other.limit.id === warning.limit.id ? warning : other));
}
