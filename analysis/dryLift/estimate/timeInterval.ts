import type { Interval } from '../fit/functionOfFit.ts';

/** A time with its interval of 95 %; null: never, as far as was watched. */
export type TimeInterval = {
  readonly value: number | null;
  readonly lower: number | null;
  readonly upper: number | null;
};

/** How long a start is watched in thought [s]. */
export const WATCHED_S = 120;

/** Rate of a time: never is a rate of zero, so that intervals may reach it [1/s]. */
export function rateOf(timeS: number | null): number {
  return timeS === null ? 0 : 1 / timeS;
}

/** A rate no larger than that of the longest watch is never [s]. */
function timeOf(ratePerS: number): number | null {
  return ratePerS > 1 / WATCHED_S ? 1 / ratePerS : null;
}

/** The interval of a time from that of its rate. */
export function timeInterval({ value, lower, upper }: Interval): TimeInterval {
  return { value: timeOf(value), lower: timeOf(upper), upper: timeOf(lower) };
}
