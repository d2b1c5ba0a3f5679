import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import { fittedTogether, type ReadDryRun } from '../../../analysis/dryLift/fittedTogether.ts';
import { runsToFit } from '../../../analysis/dryLift/series/runsToFit.ts';
import { togetherWords } from '../../../analysis/dryLift/series/togetherWords.ts';
import { dryTogetherSchema } from '../../../analysis/resultSchema/dryTogetherSchema.ts';
import { accepted } from '../../support/accepted.ts';
import { type PracticeRun, recordPractice } from '../../support/practiceRun.ts';

function analysed({ run, decoded }: PracticeRun, startedAtUtc: string): ReadDryRun {
  const { readings, census } = decoded;
  const at = { ...run, startedAtUtc };
  const result = analyseRun({ run: at, readings, census, isPractice: true, exclusions: [] });
  return { run: at, closing: { closedAtUtc: startedAtUtc }, result, readings };
}

function widthM(of: { readonly lower: number; readonly upper: number | null } | undefined): number {
  return (of?.upper ?? Number.POSITIVE_INFINITY) - (of?.lower ?? 0);
}

describe('a blanked start and a lift of one pump (seed 51)', () => {
  const recorded = recordPractice('dryLift', 'healthy', 51, { lookEveryS: 0.5 });
  const { limitM } = recorded.bench.truth().dryLift;
  const lift = analysed(recorded, '2026-06-01T09:00:00Z');
  const blanked = analysed(recordPractice('blanked', 'healthy', 51, { lookEveryS: 0.5 }), '2026-06-01T08:00:00Z');
  const together = accepted(fittedTogether([blanked, lift], null));

  it('fitted together hold the true limit in a narrower interval than the lift alone', () => {
    const alone = accepted(fittedTogether([lift], null));
    const at = lift.result.dryLift?.speedRevPerS ?? Number.NaN;
    const nearest = (limits: typeof together.limits) =>
      [...limits].sort((a, b) => Math.abs(a.speedRevPerS - at) - Math.abs(b.speedRevPerS - at))[0];
    const [joint, single] = [nearest(together.limits), nearest(alone.limits)];
    expect(joint?.limitM.lower).toBeLessThan(limitM);
    expect(joint?.limitM.upper).toBeGreaterThan(limitM);
    expect(widthM(joint?.limitM)).toBeLessThan(0.5 * widthM(single?.limitM));
    expect(dryTogetherSchema.safeParse(together).success).toBe(true);
    const [first, each] = togetherWords(together);
    expect(first).toContain(`Fitted to runs ${blanked.run.id} and ${lift.run.id} together.`);
    expect(each).toContain(`the blanked run ${blanked.run.id}`);
    expect(each).toContain(`; the lift run ${lift.run.id}`);
    const own = lift.result.dryLift?.estimate;
    if (own?.ok !== true) throw new Error('the lift has no fit');
    expect(together.alone[1]?.limits[0]?.limitM).toEqual(own.value.limits[0]?.limitM);
    expect(togetherWords(alone)).toEqual([]);
  });

  it('tell a limit that grows with speed and a time that grows with the lift, the one that was run among them', () => {
    const limits = together.limitAgainstSpeed.map((point) => point.limitM.value);
    expect(limits).toEqual([...limits].sort((a, b) => a - b));
    const times = together.timeAgainstLift.map(({ timeS }) => timeS.value ?? Number.POSITIVE_INFINITY);
    expect(times).toEqual([...times].sort((a, b) => a - b));
    const { priming } = lift.result.dryLift ?? {};
    if (priming?.ok !== true || !priming.value.primed) throw new Error('it did not prime');
    const measuredS = priming.value.primingTimeS.value;
    const above = together.timeAgainstLift.find(({ liftM }) => liftM > lift.run.setUp.staticLiftM.value);
    const below = together.timeAgainstLift.filter(({ liftM }) => liftM < lift.run.setUp.staticLiftM.value).at(-1);
    expect(below?.timeS.lower).toBeLessThan(measuredS);
    expect(above?.timeS.upper ?? Number.POSITIVE_INFINITY).toBeGreaterThan(measuredS);
  });

  it('are chosen where pump, class and suction side are the same, and not where one differs', () => {
    const ids = (other: ReadDryRun): readonly string[] => runsToFit(lift, [lift, other]).map(({ run }) => run.id);
    expect(ids(blanked)).toEqual([blanked.run.id, lift.run.id]);
    for (const setUp of [{ wetness: 'W2' }, { deadVolumeM3: 1e-4 }] as const) {
      const other = { ...blanked, run: { ...blanked.run, setUp: { ...blanked.run.setUp, ...setUp } } };
      if (JSON.stringify(other.run.setUp) === JSON.stringify(blanked.run.setUp)) throw new Error('it is the same');
      expect(ids(other)).toEqual([lift.run.id]);
    }
    expect(ids({ ...blanked, run: { ...blanked.run, mounting: 2 } })).toEqual([lift.run.id]);
  });
});
