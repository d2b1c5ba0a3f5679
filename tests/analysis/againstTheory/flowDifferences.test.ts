import { describe, expect, it } from 'vitest';
import { flowDifferences } from '../../../analysis/againstTheory/flowDifferences.ts';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import type { RunRecord } from '../../../analysis/records/runRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { censusOf, steppedReadings } from '../../support/steppedRun.ts';

/** The stepped run, its flow meter reading so many times what it reads there. */
function analysed(id: string, flowFactor: number, changes: Partial<RunRecord> = {}) {
  const readings = steppedReadings();
  const flow = readings.channels.flow?.values ?? new Float64Array();
  for (const [index, value] of flow.entries()) flow[index] = value * flowFactor;
  const run = { ...inventedRun('delivery'), id, ...changes };
  const result = analyseRun({ run, readings, census: censusOf(readings), isPractice: false, exclusions: [] });
  return { run, result };
}

function pointIn({ result }: ReturnType<typeof analysed>) {
  const law = result.delivery?.law;
  if (!law?.ok) throw new Error('no law');
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = law.value.range;
  return {
    speedRevPerS: speedRevPerS[1],
    differentialPressurePa: (differentialPressurePa[0] + differentialPressurePa[1]) / 2,
    oilTemperatureK: (oilTemperatureK[0] + oilTemperatureK[1]) / 2,
  };
}

describe('flow of one run less that of another', () => {
  it('is what the meter read more, and is told apart from it where the calibration is the same', () => {
    const now = analysed('now', 1.01);
    const [found] = flowDifferences(now, analysed('then', 1), [pointIn(now)]);
    // A law that is linear in the flow goes with it: 1.01 times.
    expectRelative(found?.flowM3PerS.ratio?.value ?? 0, 1.01, 1e-6);
    expect(found?.flowM3PerS.agrees).toBe(false);
    const gain = found?.flowM3PerS.difference.budget.find(({ sourceId }) => sourceId === 'flow.gain');
    // 0.3 % of a hundredth of the flow at the most
    expect(gain?.contribution ?? 0).toBeLessThan(0.003 * 0.0101 * (found?.flowM3PerS.measured.value ?? 0));
  });

  it('means nothing where one run is held against itself under another name, with the same oil or another', () => {
    const now = analysed('now', 1);
    const { oil } = now.run;
    const thinner = {
      ...oil,
      name: 'thinner (invented)',
      lower: { ...oil.lower, kinematicViscosityM2PerS: 0.8 * oil.lower.kinematicViscosityM2PerS },
      upper: { ...oil.upper, kinematicViscosityM2PerS: 0.8 * oil.upper.kinematicViscosityM2PerS },
    };
    const [alike] = flowDifferences(now, analysed('then', 1), [pointIn(now)]);
    expect(alike?.flowM3PerS.difference.value).toBe(0);
    const [other] = flowDifferences(now, analysed('then', 1, { oil: thinner }), [pointIn(now)]);
    // The same flow measured with thinner oil: tighter gaps, and so more of the thicker oil comes through.
    expect(other?.flowM3PerS.difference.value).toBeLessThan(0);
    const widths = [other, alike].map((each) => each?.flowM3PerS.difference.standardUncertainty ?? 0);
    expect(widths[0]).toBeGreaterThan(widths[1] ?? 0);
  });

  it('is not told for a run without a law', () => {
    const dry = { ...analysed('now', 1), run: inventedRun('dryLift') };
    const without = { ...dry, result: { ...dry.result, delivery: null } };
    expect(flowDifferences(without, analysed('then', 1), [pointIn(dry)])).toEqual([]);
  });
});
