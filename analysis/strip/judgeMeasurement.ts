import { type Judgement, judge, type Limit } from '../judgement/judge.ts';
import type { StripLimit } from '../records/stripSheet.ts';
import { sourceTable } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import type { Clearance } from './clearance.ts';

/** A measured quantity of the strip sheet, held against its limit. */
export type StripJudgement = {
  readonly stated: Stated;
  readonly limit: StripLimit | null;
  /** Null: no limit is known. */
  readonly judgement: Judgement | null;
  /** 'within the limit', … */
  readonly plainly: string;
};

function limitOf({ atLeast, atMost }: StripLimit): Limit {
  return { ...(atLeast === null ? {} : { atLeast }), ...(atMost === null ? {} : { atMost }) };
}

function plainly({ verdict }: Judgement, stated: Stated, limit: StripLimit): string {
  switch (verdict) {
    case 'pass':
      return 'within the limit';
    case 'fail':
      return limit.atMost !== null && stated.value > limit.atMost ? 'above the limit' : 'below the limit';
    case 'not proven':
      return 'too close to the limit for this instrument';
  }
}

/**
 * Holds a clearance or a single reading against its limit, with guard band, as demands are judged.
 *
 * @param clearance - value with its sources [SI unit of the limit]
 * @param limit - what it should keep; null: not known [SI unit of the value]
 * @returns value as stated, judgement and a plain word [SI unit of the value]
 *
 * Source: JCGM 106:2012, 8.3, w = U.
 */
export function judgeMeasurement(clearance: Clearance, limit: StripLimit | null): StripJudgement {
  const stated = stateUncertainty(clearance.clearanceM, sourceTable(clearance.sources));
  if (limit === null) return { stated, limit, judgement: null, plainly: 'no limit known' };
  const judgement = judge(stated, limitOf(limit));
  return { stated, limit, judgement, plainly: plainly(judgement, stated, limit) };
}
