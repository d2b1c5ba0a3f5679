import { describe, expect, it } from 'vitest';
import type { HoldExclusion } from '../../../analysis/records/runRecord.ts';
import { applyExclusions } from '../../../analysis/steady/applyExclusions.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

const MAKINGS = {
  speedRevPerS: 15,
  differentialPressurePa: 3e5,
  dynamicViscosityPaS: 0.04,
  densityKgPerM3: 860,
  flowM3PerS: 2e-4,
};

/** Two holds, 10 to 15 s and 20 to 25 s. */
const HOLDS = [syntheticHold(1, MAKINGS, 1e-7), syntheticHold(2, MAKINGS, 1e-7)];

function line(fromS: number, toS: number, isExcluded: boolean, reason = 'valve touched'): HoldExclusion {
  return { atUtc: '2026-06-01T09:00:00Z', person: 'invented', fromS, toS, isExcluded, reason };
}

function leftOut(exclusions: readonly HoldExclusion[], holds = HOLDS) {
  return applyExclusions(holds, exclusions).map((hold) => hold.leftOut);
}

describe('applyExclusions', () => {
  it('takes out the holds that a line covers by more than half, and keeps the reason', () => {
    expect(leftOut([line(12, 40, true)])).toEqual([
      { cause: 'person', reason: 'valve touched' },
      { cause: 'person', reason: 'valve touched' },
    ]);
    expect(leftOut([line(12.6, 22.4, true)])).toEqual([null, null]);
    expect(leftOut([line(19, 30, true)])).toEqual([null, { cause: 'person', reason: 'valve touched' }]);
  });

  it('lets the last line that covers a hold count', () => {
    expect(leftOut([line(0, 30, true), line(0, 16, false)])).toEqual([
      null,
      { cause: 'person', reason: 'valve touched' },
    ]);
    expect(leftOut([line(0, 30, true), line(0, 16, true, 'oil foamed')])[0]?.reason).toBe('oil foamed');
    expect(leftOut([line(0, 16, false), line(0, 30, true)])[0]?.cause).toBe('person');
  });

  it('lets nobody bring back what was left out for another cause', () => {
    const filling = { cause: 'filling', reason: 'too fast to fill' } as const;
    const [first] = HOLDS;
    if (first === undefined) throw new Error('no hold');
    expect(leftOut([line(0, 30, false)], [{ ...first, leftOut: filling }])).toEqual([filling]);
    expect(leftOut([line(0, 30, false)], [{ ...first, leftOut: { cause: 'person', reason: 'before' } }])).toEqual([
      null,
    ]);
  });

  it('changes nothing without a line', () => {
    expect(applyExclusions(HOLDS, [])).toEqual(HOLDS);
  });
});
