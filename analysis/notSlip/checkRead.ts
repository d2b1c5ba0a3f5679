import { printFixed } from '../formatStated.ts';
import type { SourceTable, Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';

/** What a check of a run read: a sign, none, or that the run does not hold what the check needs. */
export type CheckRead<Numbers, Code extends string> =
  | { readonly read: 'sign'; readonly numbers: Numbers; readonly text: string }
  | { readonly read: 'no sign'; readonly numbers: Numbers; readonly text: string }
  | { readonly read: 'cannot tell'; readonly code: Code; readonly text: string };

/** A check may cry wolf in one healthy run of two hundred, by chance alone: a house limit [1]. */
export const FALSE_ALARM_PROBABILITY = 0.005;

/**
 * Whether a value lies above zero beyond chance, when it is the largest of so many that were looked at:
 * y > t(1 − p/m) u(y), p the probability of a false alarm and m the number of values (Bonferroni).
 *
 * @param uncertain - the value [any unit]
 * @param sources - every source that it is sensitive to [-]
 * @param lookedAt - values among which this one was picked, each looked at from one side [1]
 * @returns true where chance would do as much in fewer than one healthy run of two hundred [-]
 * @throws RangeError if a source is missing
 *
 * Source: JCGM 100:2008, G.3 (t factor with effective degrees of freedom); Bonferroni's inequality.
 */
export function isBeyondChance(uncertain: Uncertain, sources: SourceTable, lookedAt: number): boolean {
  const { expandedUncertainty } = stateUncertainty(uncertain, sources, 1 - (2 * FALSE_ALARM_PROBABILITY) / lookedAt);
  return uncertain.value > expandedUncertainty;
}

/** No agreement is told to be nearer than the last digit that is printed [%]. */
const LEAST_PRINTED_PERCENT = 0.01;

/** '0.03' of a share, and never '0.00': nothing measured agrees so well. */
export function percentWithin(share: number): string {
  return printFixed(Math.max(LEAST_PRINTED_PERCENT, 100 * Math.abs(share)), 2);
}
