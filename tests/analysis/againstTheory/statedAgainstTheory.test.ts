import { describe, expect, it } from 'vitest';
import { statedAgainstTheory } from '../../../analysis/againstTheory/statedAgainstTheory.ts';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import { accepted } from '../../support/accepted.ts';
import { feedSheet } from '../../support/gapSheets.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { inventedLawRun, measured } from '../efficiency/inventedLawRun.ts';

const { holds, sources } = inventedLawRun(91);
const SWEPT = measured('geometry.swept', 13.9e-6, 0.05e-6);

function against(changes: Partial<RunRecord>) {
  const fit = accepted(fitSlip(holds));
  const run = { ...inventedRun('delivery'), ...changes };
  return statedAgainstTheory(run, holds, fit, SWEPT.value, [...Object.values(sources), SWEPT.source]);
}

describe('a run against its theory', () => {
  it('says that no strip sheet was in force, and holds the capacity against geometry alone', () => {
    const { capacity, slip, equivalentClearances } = against({ stripSheet: null });
    expect(slip).toMatchObject({ ok: false, reason: { code: 'NO_STRIP_SHEET' } });
    expect(capacity.predictedDrag).toBeNull();
    expect(equivalentClearances).toBeNull();
  });

  it('asks the hold of the largest pressure difference for clearances', () => {
    const { capacity, slip, equivalentClearances } = against({ stripSheet: feedSheet() });
    if (!slip.ok) throw new Error(slip.reason.text);
    // The thirteen holds all have a pressure rise; the largest of 3.9 bar is first met in the fourth.
    expect(slip.value.holds).toHaveLength(13);
    expect(equivalentClearances?.holdNumber).toBe(4);
    expect(equivalentClearances?.clearances.length).toBeGreaterThan(0);
    expect(capacity.predictedDrag?.value).toBeGreaterThan(0);
  });

  it('says what an incomplete sheet lacks', () => {
    const { slip, capacity } = against({ stripSheet: feedSheet({ gapDimensions: null }) });
    expect(slip).toMatchObject({ ok: false, reason: { code: 'NOT_MEASURED' } });
    expect(capacity.predictedDrag).toBeNull();
  });

  it('needs a hold', () => {
    const fit = accepted(fitSlip(holds));
    expect(() => statedAgainstTheory(inventedRun('delivery'), [], fit, SWEPT.value, [])).toThrow(/holds: none/);
  });
});
