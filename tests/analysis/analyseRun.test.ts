import { describe, expect, it } from 'vitest';
import { analyseRun, GeometryError } from '../../analysis/analyseRun.ts';
import { QUALITY, type Readings } from '../../analysis/readings.ts';
import type { RunRecord } from '../../analysis/records/runRecord.ts';
import type { RunResult } from '../../analysis/result.ts';
import { inventedBench } from '../support/benchRecord.ts';
import { inventedRun } from '../support/inventedRun.ts';
import { sampledReadings } from '../support/readings.ts';
import { censusOf, steppedReadings } from '../support/steppedRun.ts';

function resultOf(run: RunRecord, readings: Readings, census = censusOf(readings)): RunResult {
  return analyseRun({ run, readings, census, isPractice: false, exclusions: [] });
}

function codesOf(result: RunResult, severity: string): string[] {
  return result.findings.filter((finding) => finding.severity === severity).map(({ code }) => code);
}

describe('analyseRun', () => {
  it('judges a sound delivery run, demand by demand, and leaves priming to another run', () => {
    const result = resultOf(inventedRun('delivery'), steppedReadings());
    expect(result.delivery?.holds).toHaveLength(15);
    expect(Object.fromEntries(result.verdicts.map(({ demand, verdict }) => [demand.id, verdict]))).toEqual({
      'feed-flow': 'pass',
      efficiency: 'pass',
      capacity: 'pass',
      priming: 'not proven',
    });
    expect(result.verdicts.map(({ speaks }) => speaks)).toEqual([true, true, true, false]);
    expect(result.outcome).toBe('pass');
  });

  it('keeps the gain of the flow meter out of q/(V_i n) and leaves it in q/(V_g n)', () => {
    const hold = resultOf(inventedRun('delivery'), steppedReadings()).delivery?.holds[0];
    const shareOf = (
      budget: readonly { readonly sourceId: string; readonly contribution: number }[] | undefined,
    ): number => budget?.find(({ sourceId }) => sourceId === 'flow.gain')?.contribution ?? 0;
    // u(gain) = 0.3 % of an efficiency near 1.
    expect(shareOf(hold?.geometricEfficiency.budget)).toBeGreaterThan(0.0025);
    expect(shareOf(hold?.derivedEfficiency?.budget)).toBeLessThan(1e-6);
  });

  it("says 'measured' on a bench that nobody calibrated, and for a pump whose duty nobody knows", () => {
    const bench = inventedBench();
    const uncalibrated = { ...bench, channels: bench.channels.map((channel) => ({ ...channel, calibration: null })) };
    const result = resultOf(inventedRun('delivery', uncalibrated), steppedReadings());
    expect(result.outcome).toBe('measured');
    expect(codesOf(result, 'note')).toContain('NOT_CALIBRATED');
    const run = inventedRun('delivery');
    expect(resultOf({ ...run, pump: { ...run.pump, duty: null } }, steppedReadings()).outcome).toBe('measured');
    // One channel that decides is enough; one that decides nothing is none of it.
    const without = (name: string) => ({
      ...bench,
      channels: bench.channels.map((channel) =>
        channel.channel === name ? { ...channel, calibration: null } : channel,
      ),
    });
    expect(resultOf(inventedRun('delivery', without('flow')), steppedReadings()).outcome).toBe('measured');
    const dry = sampledReadings(14, 20, {
      speed: (timeS) => (timeS < 1 ? 0 : 10),
      flow: (timeS) => (timeS < 3 ? 0 : 1.4e-4),
    });
    expect(resultOf(inventedRun('dryLift', without('oilTemperature')), dry).outcome).toBe('pass');
    expect(resultOf(inventedRun('dryLift', without('speed')), dry).outcome).toBe('measured');
  });

  it('finds a calibration that was out of date on the day of the run', () => {
    const run = { ...inventedRun('delivery'), startedAtUtc: '2027-03-02T08:00:00Z' };
    // The invented bench is due on 2027-03-01.
    expect(codesOf(resultOf(run, steppedReadings()), 'unfit')).toContain('CALIBRATION_OUT_OF_DATE');
    const onTheDay = { ...run, startedAtUtc: '2027-03-01T08:00:00Z' };
    expect(codesOf(resultOf(onTheDay, steppedReadings()), 'unfit')).toEqual([]);
  });

  it('names a channel that stood outside its range', () => {
    const readings = steppedReadings();
    readings.channels.flow?.quality.fill(QUALITY.outOfRange, 0, 100);
    expect(codesOf(resultOf(inventedRun('delivery'), readings), 'unfit')).toContain('OUT_OF_RANGE');
    const once = steppedReadings();
    once.channels.flow?.quality.fill(QUALITY.outOfRange, 50, 51);
    expect(codesOf(resultOf(inventedRun('delivery'), once), 'warning')).toContain('OUT_OF_RANGE');
  });

  it('counts bad lines by kind, and says so when not one line could be read', () => {
    const readings = steppedReadings();
    const result = resultOf(inventedRun('delivery'), readings, censusOf(readings, { checksum: 3 }));
    expect(result.findings.find(({ code }) => code === 'BAD_LINES')?.text).toContain('3 checksum');
    const silent = sampledReadings(0, 20, {});
    const unreadable = resultOf(inventedRun('delivery'), silent, censusOf(silent, { fieldCount: 1000 }));
    expect(codesOf(unreadable, 'unfit')).toContain('NO_READINGS');
    expect(unreadable.findings[0]?.text).toContain('1000 fieldCount');
  });

  it('refuses a law where nothing was held, with what to do', () => {
    const restless = sampledReadings(60, 20, {
      speed: (timeS) => 10 + timeS / 10,
      deliveryPressure: () => 2e5,
      suctionPressure: () => 96000,
      flow: (timeS) => 1e-5 * (10 + timeS / 10),
      oilTemperature: () => 318.15,
    });
    const result = resultOf(inventedRun('delivery'), restless);
    expect(codesOf(result, 'unfit')).toContain('NO_HOLDS');
    expect(result.findings.at(-1)?.text).toContain('Hold each set point');
  });

  it('does not judge a duty point that was never enclosed', () => {
    const run = inventedRun('delivery');
    const far = { speedRevPerS: 15, differentialPressurePa: 9e5, oilTemperatureK: 318.15 };
    const demand = {
      id: 'far',
      origin: 'maker',
      note: '',
      quantity: 'deliveredFlow',
      at: far,
      atLeastM3PerS: 1e-4,
    } as const;
    const result = resultOf(
      { ...run, pump: { ...run.pump, duty: { machine: 'invented', demands: [demand], suction: null } } },
      steppedReadings(),
    );
    expect(result.verdicts[0]?.verdict).toBe('not proven');
    expect(result.verdicts[0]?.reason).toContain('add holds that enclose it');
  });

  it('fails a dry start that was watched longer than the demand allows and never saw oil', () => {
    const dry = sampledReadings(14, 20, { speed: (timeS) => (timeS < 1 ? 0 : 10), flow: () => 0 });
    const result = resultOf(inventedRun('dryLift'), dry);
    const priming = result.verdicts.find(({ demand }) => demand.id === 'priming');
    expect(priming?.verdict).toBe('fail');
    expect(result.outcome).toBe('fail');
    // Watched for five seconds only: the demand allows eight, so nothing is proven.
    const short = sampledReadings(6, 20, { speed: (timeS) => (timeS < 1 ? 0 : 10), flow: () => 0 });
    expect(resultOf(inventedRun('dryLift'), short).outcome).toBe('not proven');
  });

  it('does not let a start from a lower lift or a wetter pump speak to the demand', () => {
    const primed = sampledReadings(14, 20, {
      speed: (timeS) => (timeS < 1 ? 0 : 10),
      flow: (timeS) => (timeS < 3 ? 0 : 1.4e-4),
    });
    const run = inventedRun('dryLift');
    const speaks = (setUp: Partial<RunRecord['setUp']>): boolean | undefined =>
      resultOf({ ...run, setUp: { ...run.setUp, ...setUp } }, primed).verdicts.find(
        ({ demand }) => demand.id === 'priming',
      )?.speaks;
    expect(speaks({})).toBe(true);
    expect(speaks({ staticLiftM: { value: 0.3, standardUncertainty: 0.005 } })).toBe(false);
    expect(speaks({ wetness: 'W2' })).toBe(false);
    expect(speaks({ wetness: 'W0' })).toBe(true);
  });

  it('says when the oil stood outside the temperatures that its viscosity is stated for', () => {
    const readings = steppedReadings();
    expect(codesOf(resultOf(inventedRun('delivery'), readings), 'note')).not.toContain('OIL_EXTRAPOLATED');
    // The invented oil is stated at 40 and 100 °C; 25 °C lies below.
    readings.channels.oilTemperature?.values.fill(298.15);
    const result = resultOf(inventedRun('delivery'), readings);
    expect(codesOf(result, 'note')).toContain('OIL_EXTRAPOLATED');
    expect(result.findings.find(({ code }) => code === 'OIL_EXTRAPOLATED')?.text).toContain('between 25.0 and 25.0 °C');
  });

  it('refuses a geometry that cannot mesh', () => {
    const run = inventedRun('delivery');
    const { geometry } = run.pump;
    if (geometry.kind !== 'externalGear') throw new Error('sample');
    const pump = { ...run.pump, geometry: { ...geometry, tipDiameterM: { value: 0.0362, standardUncertainty: 1e-5 } } };
    expect(() => resultOf({ ...run, pump }, steppedReadings())).toThrow(GeometryError);
  });
});
