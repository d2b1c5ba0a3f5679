import type { BenchChannel } from '../../../analysis/records/benchRecord.ts';

const DAY_MS = 86_400_000;

/** So long ahead a date is worth a word [days]. */
const SOON_DAYS = 45;

/** Farther than this nobody counts days. */
const FAR_DAYS = 400;

export type Due = {
  readonly words: string;
  /** Overdue, due soon, or nobody vouches for it. */
  readonly isWorthALook: boolean;
  /** For sorting: the most pressing first [days]. */
  readonly daysLeft: number;
};

/** Whole days from one calendar day to another; both by the calendar, so no clock and no summer time takes part. */
function daysBetween(from: string, to: string): number {
  return Math.round((Date.parse(`${to}T00:00:00Z`) - Date.parse(`${from}T00:00:00Z`)) / DAY_MS);
}

/** How a channel's calibration stands on a day. */
export function dueOf({ calibration }: Pick<BenchChannel, 'calibration'>, today: string): Due {
  if (calibration === null) {
    return {
      words: 'none: what rests on it is measured, never passed',
      isWorthALook: true,
      daysLeft: Number.NEGATIVE_INFINITY,
    };
  }
  const daysLeft = daysBetween(today, calibration.dueOn);
  if (daysLeft < 0) {
    return {
      words: `overdue since ${calibration.dueOn}: no certificate is filed from its runs`,
      isWorthALook: true,
      daysLeft,
    };
  }
  if (daysLeft > FAR_DAYS) return { words: `due on ${calibration.dueOn}`, isWorthALook: false, daysLeft };
  const inDays = daysLeft === 0 ? 'today' : daysLeft === 1 ? 'tomorrow' : `in ${daysLeft} days`;
  return { words: `due ${inDays}, on ${calibration.dueOn}`, isWorthALook: daysLeft <= SOON_DAYS, daysLeft };
}

/** '−1 to 40', in the channel's own unit. */
export function rangeWords({ range }: Pick<BenchChannel, 'range'>): string {
  return `${range.min} to ${range.max}`.replaceAll('-', '−');
}
