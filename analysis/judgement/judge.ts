import { normalCdf } from '../uncertainty/normal.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { studentTCdf } from '../uncertainty/studentT.ts';

export type Judgement = {
  readonly verdict: 'pass' | 'fail' | 'not proven';
  /** Probability that the true value keeps the limit [1]. */
  readonly conformityProbability: number;
};

/** A one-sided or two-sided limit in the unit of the value. */
export type Limit = { readonly atLeast?: number; readonly atMost?: number };

/** Probability that the true value lies above a bound [1]. */
function probabilityAbove(stated: Stated, bound: number): number {
  const { value, standardUncertainty, degreesOfFreedom } = stated;
  if (standardUncertainty === 0) return value >= bound ? 1 : 0;
  const distance = (value - bound) / standardUncertainty;
  return degreesOfFreedom === null ? normalCdf(distance) : studentTCdf(distance, degreesOfFreedom);
}

/**
 * Holds a value against a limit with guard band w = U: pass when it is better than the limit by the expanded
 * uncertainty or more, fail when worse by as much or more, not proven between.
 *
 * @param stated - value with expanded uncertainty for 95 % [unit of the limit]
 * @param limit - at least, at most, or both [unit of the value]
 * @returns verdict and probability of conformity [1]
 * @throws RangeError if there is no limit at all
 *
 * Source: JCGM 106:2012, clause 7 (conformance probability) and 8.3 (guarded acceptance, w = U); ILAC-G8:09/2019.
 */
export function judge(stated: Stated, limit: Limit): Judgement {
  const { atLeast, atMost } = limit;
  if (atLeast === undefined && atMost === undefined) throw new RangeError('limit: neither atLeast nor atMost is given');
  const { value, expandedUncertainty } = stated;
  const aboveLower = atLeast === undefined ? 1 : probabilityAbove(stated, atLeast);
  const aboveUpper = atMost === undefined ? 0 : probabilityAbove(stated, atMost);
  // Distance inside the nearer limit; negative outside.
  const margin = Math.min(
    atLeast === undefined ? Number.POSITIVE_INFINITY : value - atLeast,
    atMost === undefined ? Number.POSITIVE_INFINITY : atMost - value,
  );
  const conformityProbability = Math.max(0, aboveLower - aboveUpper);
  if (margin >= expandedUncertainty) return { verdict: 'pass', conformityProbability };
  if (margin <= -expandedUncertainty) return { verdict: 'fail', conformityProbability };
  return { verdict: 'not proven', conformityProbability };
}
