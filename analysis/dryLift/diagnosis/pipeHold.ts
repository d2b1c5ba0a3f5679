import { mean, sampleStandardDeviation } from 'simple-statistics';
import { type Course, courseBetween } from '../events/course.ts';

/** The suction pipe by itself: flange valve shut under suction, the tapping on the pipe's side. */
export type PipeHold =
  | ({ readonly verdict: 'holds' } & HeldSuction)
  | ({ readonly verdict: 'leaks' } & HeldSuction)
  | { readonly verdict: 'cannot tell'; readonly text: string };

export type HeldSuction = {
  /** Below rest when it was shut, a second later, and in the end: friction of what flowed goes at once, and is no leak. */
  readonly drawnPa: number;
  readonly settledPa: number;
  readonly leftPa: number;
  readonly heldForS: number;
  /** Until half of it was lost; null: it never was. */
  readonly halfLostS: number | null;
};

/** Means at the beginning of the hold [s]. */
const MEAN_S = 0.5;
/** Mean at its end: longer, since nothing moves fast any more [s]. */
const LAST_MEAN_S = 2;
const LEAST_HOLD_S = 4;
/** Less suction than this, or than so many standard deviations of the means, holds nothing [Pa]. */
const LEAST_DRAWN_PA = 60;
const LEAST_DEVIATIONS = 8;
/** So much of it may go: oil that settles, air that warms [1]: common practice, no source. */
const MAY_GO_SHARE = 0.15;
/** Between this share and that one the noise must be able to tell [1]. */
const SURELY_GONE_SHARE = 0.4;
const SURE_DEVIATIONS = 3.3;
/** So long after the valve was shut nothing flows any more [s]. */
const SETTLES_S = 1;
/** Next to nothing left: a leak, however fast it went [1]. */
const NOTHING_SHARE = 0.2;

/**
 * Reads a hold of the suction pipe. A pipe that loses its suction leaks; a pump behind an open valve loses it in a second or
 * two though it be sound, so that only the pipe by itself tells.
 *
 * @param suction - of the tapping on the pipe's side, absolute [s, Pa]
 * @param restPa - what the channel shows at rest [Pa]
 * @param hold - when the valve was shut, and until when it stayed so [s]
 * @returns whether it holds [Pa, s]
 */
export function readPipeHold(
  suction: Course,
  restPa: number,
  hold: { readonly fromS: number; readonly untilS: number },
): PipeHold {
  const held = courseBetween(suction, hold.fromS, hold.untilS);
  const heldForS = (held.timesS.at(-1) ?? 0) - (held.timesS[0] ?? 0);
  if (!(heldForS >= LEAST_HOLD_S) || held.values.length < 10) {
    return { verdict: 'cannot tell', text: `The valve was shut for ${heldForS.toFixed(1)} s: hold the pipe for ten.` };
  }
  const first = [...courseBetween(suction, hold.fromS - MEAN_S, hold.fromS).values];
  const last = [...courseBetween(held, hold.untilS - LAST_MEAN_S, hold.untilS).values];
  const settled = [...courseBetween(held, hold.fromS + SETTLES_S, hold.fromS + SETTLES_S + MEAN_S).values];
  if (first.length < 3 || last.length < 3 || settled.length < 3) {
    return { verdict: 'cannot tell', text: 'Too few readings about the hold of the pipe.' };
  }
  const drawnPa = restPa - mean(first);
  const leftPa = restPa - mean(last);
  const settledPa = restPa - mean(settled);
  const noisePa = sampleStandardDeviation(last);
  const deviationPa = noisePa / Math.sqrt(first.length);
  const lossDeviationPa = noisePa * Math.hypot(1 / Math.sqrt(last.length), 1 / Math.sqrt(settled.length));
  const cannotTell = {
    verdict: 'cannot tell',
    text: 'There was too little suction to hold: draw the pipe down by a hand pump, shut the flange valve and watch.',
  } as const;
  if (!(drawnPa >= Math.max(LEAST_DRAWN_PA, LEAST_DEVIATIONS * deviationPa))) return cannotTell;
  const half = held.values.findIndex((value) => restPa - value <= drawnPa / 2);
  const halfLostS = half < 0 ? null : (held.timesS[half] ?? hold.fromS) - hold.fromS;
  const lostPa = settledPa - leftPa;
  const isLost =
    lostPa > MAY_GO_SHARE * settledPa + SURE_DEVIATIONS * lossDeviationPa ||
    leftPa < NOTHING_SHARE * drawnPa - SURE_DEVIATIONS * deviationPa;
  const mayBeLost = lostPa + SURE_DEVIATIONS * lossDeviationPa > SURELY_GONE_SHARE * settledPa;
  if (!isLost && mayBeLost) return cannotTell;
  return { verdict: isLost ? 'leaks' : 'holds', drawnPa, settledPa, leftPa, heldForS, halfLostS };
}
