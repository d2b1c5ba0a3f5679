import { describe, expect, it } from 'vitest';
import { type AnalysedRun, compareRuns } from '../../../analysis/againstTheory/compareRuns.ts';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import type { Readings } from '../../../analysis/readings.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { censusOf, steppedReadings } from '../../support/steppedRun.ts';

/** The stepped run, its flow meter reading so many times what it reads there. */
function analysed(id: string, flowFactor: number, changes: Partial<RunRecord> = {}): AnalysedRun {
  const readings: Readings = steppedReadings();
  const flow = readings.channels.flow?.values ?? new Float64Array();
  for (const [index, value] of flow.entries()) flow[index] = value * flowFactor;
  const run = { ...inventedRun('delivery'), id, ...changes };
  const result = analyseRun({ run, readings, census: censusOf(readings), isPractice: false, exclusions: [] });
  return { run, result };
}

const EARLY = { startedAtUtc: '2026-05-01T08:00:00Z' } as const;

describe('a run against the earlier ones of its pump', () => {
  it('lets the flow meter’s gain cancel where the same calibration was in force', () => {
    const comparison = compareRuns(analysed('now', 1), [analysed('then', 1.01, EARLY)]);
    const capacity = comparison?.earlier[0]?.derivedCapacityM3PerRev;
    // The flow was a hundredth less than then, and V_i goes with it: 1/1.01.
    expectRelative(capacity?.ratio?.value ?? 0, 1 / 1.01, 1e-6);
    // u(gain) = 0.3 % is in both; of the difference V_now − V_then only a hundredth of it is left.
    const gain = capacity?.difference.budget.find(({ sourceId }) => sourceId === 'flow.gain')?.contribution ?? 0;
    expect(gain).toBeLessThan(0.0101 * 0.003 * (capacity?.measured.value ?? 0));
    expect(capacity?.agrees).toBe(false);
  });

  it('counts the gain twice where the meter was calibrated anew between the runs', () => {
    const then = inventedRun('delivery');
    const bench = {
      ...then.bench,
      channels: then.bench.channels.map((channel) =>
        channel.calibration === null
          ? channel
          : { ...channel, calibration: { ...channel.calibration, reference: 'the one before (invented)' } },
      ),
    };
    const comparison = compareRuns(analysed('now', 1), [analysed('then', 1, { ...EARLY, bench })]);
    const capacity = comparison?.earlier[0]?.derivedCapacityM3PerRev;
    const gains = capacity?.difference.budget.filter(({ sourceId }) => sourceId.endsWith('flow.gain')) ?? [];
    // Two independent gains of 0.3 % each, as far as the invented bench states them.
    expect(gains).toHaveLength(2);
    expect(capacity?.agrees).toBe(true);
  });

  it('knows nothing of mounting from one mounting, and widens V_i by what two mountings differ by', () => {
    const now = analysed('now', 1);
    const again = compareRuns(now, [analysed('then', 1.004, EARLY)]);
    expect(again?.mounting.derivedCapacityM3PerRev).toBeNull();
    expect(again?.mounting.text).toContain('one mounting');
    const remounted = compareRuns(now, [analysed('then', 1.004, { ...EARLY, mounting: 2 })]);
    const line = remounted?.mounting.derivedCapacityM3PerRev?.budget.find(
      ({ sourceId }) => sourceId === 'run.mounting',
    );
    // Of two values V and 1.004 V the standard deviation is 0.004 V/√2, of which the scatter within the runs takes less than a hundredth.
    const capacity = now.result.delivery?.law.ok ? now.result.delivery.law.value.coefficients : null;
    expectRelative(line?.contribution ?? 0, (0.004 * (capacity?.derivedCapacityM3PerRev ?? 0)) / Math.SQRT2, 1e-2);
  });

  it('leaves runs of another state of the pump out of what mounting changes', () => {
    const found = compareRuns(analysed('now', 1), [
      analysed('then', 0.9, { ...EARLY, mounting: 2, label: 'as found' }),
    ]);
    expect(found?.mounting.derivedCapacityM3PerRev).toBeNull();
    expect(found?.earlier).toHaveLength(1);
  });

  it('says nothing of a run without a law', () => {
    const dry = inventedRun('dryLift');
    const readings = steppedReadings();
    const result = analyseRun({ run: dry, readings, census: censusOf(readings), isPractice: false, exclusions: [] });
    expect(compareRuns({ run: dry, result }, [])).toBeNull();
  });
});
