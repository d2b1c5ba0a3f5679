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
function rateOf(timeS: number | null): number {
  return timeS === null ? 0 : 1 / timeS;
}

/** When oil came to the inlet and to the outlet of a simulated start, since its motor start; null: never [s]. */
type Arrival = { readonly oilAtInletS: number | null; readonly oilAtOutletS: number | null };

/**
 * Rate of the time to delivery. Gears may take oil as soon as it stands at the inlet, or when all spaces before and in the pump
 * are full: halfway between is taken, and both ends are as likely as what lies between.
 *
 * @param arrival - of a simulated start [s]
 * @returns rate halfway, and its variance by that range [1/s], [1/s²]
 *
 * Source: how much of the spaces must fill is common practice without a source; JCGM 100:2008, 4.3.7 (rectangular range).
 */
export function deliveryRate(arrival: Arrival): { readonly ratePerS: number; readonly variance: number } {
  const { oilAtInletS, oilAtOutletS } = arrival;
  const [soonest, latest] = [rateOf(oilAtInletS), rateOf(oilAtOutletS)];
  return { ratePerS: (soonest + latest) / 2, variance: (soonest - latest) ** 2 / 12 };
}

/** A rate no larger than that of the longest watch is never [s]. */
function timeOf(ratePerS: number): number | null {
  return ratePerS > 1 / WATCHED_S ? 1 / ratePerS : null;
}

/** The interval of a time from that of its rate. */
export function timeInterval({ value, lower, upper }: Interval): TimeInterval {
  return { value: timeOf(value), lower: timeOf(upper), upper: timeOf(lower) };
}
