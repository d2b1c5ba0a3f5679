import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../analysis/analyseRun.ts';
import type { ChannelName } from '../../analysis/channels.ts';
import type { Readings } from '../../analysis/readings.ts';
import type { HoldExclusion } from '../../analysis/records/runRecord.ts';
import type { Finding, RunResult } from '../../analysis/result.ts';
import { inventedRun } from '../support/inventedRun.ts';
import { censusOf, steppedReadings } from '../support/steppedRun.ts';

function resultOf(readings: Readings, exclusions: readonly HoldExclusion[] = []): RunResult {
  const run = inventedRun('delivery');
  return analyseRun({ run, readings, census: censusOf(readings), isPractice: false, exclusions });
}

/** The stepped run with the values of one channel changed by hand. */
function withChanged(channel: ChannelName, change: (value: number, atS: number) => number): Readings {
  const readings = steppedReadings();
  const values = readings.channels[channel]?.values ?? new Float64Array();
  for (const [index, value] of values.entries()) values[index] = change(value, readings.elapsedS[index] ?? 0);
  return readings;
}

function findingOf(result: RunResult, code: string): Finding | undefined {
  return result.findings.find((finding) => finding.code === code);
}

function verdicts(result: RunResult): readonly string[] {
  return result.verdicts.filter(({ speaks }) => speaks).map(({ verdict }) => verdict);
}

describe('a run with something wrong in it is named, and judged by nobody', () => {
  it.each([
    // 1 US gal = 3.785411784 l, exact: NIST SP 811 (2008), appendix B.8.
    ['US gallons read as litres', 1 / 3.785411784, 'US gal/min'],
    ['litres a second read as litres a minute', 1 / 60, 'l/s'],
    ['litres an hour read as litres a minute', 60, 'l/h'],
  ])('%s', (_title, factor, unit) => {
    const result = resultOf(withChanged('flow', (value) => value * factor));
    expect(findingOf(result, 'FLOW_UNIT')).toMatchObject({ severity: 'unfit' });
    expect(findingOf(result, 'FLOW_UNIT')?.text).toContain(unit);
    expect(verdicts(result)).toEqual(verdicts(result).map(() => 'not proven'));
    expect(result.outcome).toBe('not proven');
  });

  it('exchanged pressure sensors', () => {
    const readings = steppedReadings();
    const { deliveryPressure, suctionPressure } = readings.channels;
    if (deliveryPressure === undefined || suctionPressure === undefined) throw new Error('sample');
    const channels = { ...readings.channels, deliveryPressure: suctionPressure, suctionPressure: deliveryPressure };
    const result = resultOf({ ...readings, channels });
    expect(findingOf(result, 'PORTS_SWAPPED')?.severity).toBe('unfit');
    expect(result.outcome).toBe('not proven');
  });

  it('a pump that turned the wrong way', () => {
    const result = resultOf(withChanged('flow', (value) => -value));
    expect(findingOf(result, 'ROTATION_REVERSED')?.severity).toBe('unfit');
    expect(result.outcome).toBe('not proven');
  });

  it('one pressure', () => {
    const result = resultOf(withChanged('deliveryPressure', (value) => 201325 + (value % 100)));
    expect(findingOf(result, 'PRESSURE_NOT_VARIED')?.text).toContain('Add holds at low and at high pressure');
    expect(result.delivery?.law.ok).toBe(false);
  });

  it('a run without a thermometer', () => {
    const readings = steppedReadings();
    const { oilTemperature: _without, ...channels } = readings.channels;
    const result = resultOf({ ...readings, channels });
    expect(findingOf(result, 'NO_HOLDS')?.text).toContain('oil temperature');
  });

  it('three holds for four coefficients', () => {
    const readings = steppedReadings();
    const end = readings.elapsedS.findIndex((atS) => atS >= 24);
    const cut = Object.entries(readings.channels).map(([name, { values, quality }]) => [
      name,
      { values: values.slice(0, end), quality: quality.slice(0, end) },
    ]);
    const result = resultOf({
      ...readings,
      elapsedS: readings.elapsedS.slice(0, end),
      channels: Object.fromEntries(cut),
    });
    expect(result.delivery?.law).toMatchObject({ ok: false, reason: { code: 'TOO_FEW_HOLDS' } });
  });

  it('one speed: the law is fitted with fewer terms, and says which and what would tell them apart', () => {
    const readings = steppedReadings();
    const flow = readings.channels.flow?.values ?? new Float64Array();
    const speed = readings.channels.speed?.values ?? new Float64Array();
    for (const [index, value] of speed.entries()) {
      flow[index] = (flow[index] ?? 0) + 13.9e-6 * (15 - value);
      speed[index] = 15 + (value % 0.001);
    }
    const result = resultOf(readings);
    const merged = result.findings.filter(({ text }) => text.includes('speed'));
    expect(result.delivery?.law.ok === false || merged.length > 0).toBe(true);
  });

  it('flow that rises with pressure: negative slip, beyond its uncertainty', () => {
    // From 13.9e-6 n − 5e-11 Δp to 13.9e-6 n + 5e-11 Δp, about the mean of 2 bar.
    const readings = steppedReadings();
    const { flow, deliveryPressure } = readings.channels;
    for (const [index, pressurePa] of (deliveryPressure?.values ?? new Float64Array()).entries()) {
      if (flow !== undefined) flow.values[index] = (flow.values[index] ?? 0) + 1e-10 * (pressurePa - 96000);
    }
    expect(findingOf(resultOf(readings), 'NEGATIVE_SLIP')?.severity).toBe('warning');
  });

  it('a suction that starves at the fastest speed: those holds leave the fit', () => {
    // Beyond 17 r/s a tenth of the flow is missing; the fastest speed is 18.75 r/s, set points 9 to 12.
    const readings = steppedReadings();
    const { flow, speed } = readings.channels;
    for (const [index, speedRevPerS] of (speed?.values ?? new Float64Array()).entries()) {
      if (flow !== undefined && speedRevPerS > 17) flow.values[index] = 0.9 * (flow.values[index] ?? 0);
    }
    const result = resultOf(readings);
    expect(findingOf(result, 'NOT_FILLING')?.text).toContain('900 and 1125 r/min');
    expect(
      result.delivery?.holds.filter(({ leftOut }) => leftOut?.cause === 'filling').map(({ number }) => number),
    ).toEqual([9, 10, 11, 12]);
    const law = result.delivery?.law.ok ? result.delivery.law.value : null;
    // V = 13.9 cm³/rev, as the readings were made.
    expect(Math.abs((law?.coefficients.derivedCapacityM3PerRev ?? 0) / 13.9e-6 - 1)).toBeLessThan(0.002);
  });

  it('a hold taken out by hand leaves the fit and keeps its reason; taken back in, all is as before', () => {
    const said = { atUtc: '2026-06-01T09:00:00Z', person: 'invented', fromS: 8, toS: 16 } as const;
    const out: HoldExclusion = { ...said, isExcluded: true, reason: 'the valve was touched' };
    const readings = steppedReadings();
    const without = resultOf(readings, [out]);
    expect(without.delivery?.holds.find(({ leftOut }) => leftOut !== null)).toMatchObject({
      number: 2,
      leftOut: { cause: 'person', reason: 'the valve was touched' },
      residualFlowM3PerS: null,
    });
    expect(findingOf(without, 'HOLD_EXCLUDED')?.text).toContain('the valve was touched');
    const back = resultOf(readings, [out, { ...said, isExcluded: false, reason: 'it was another run' }]);
    const untouched = resultOf(readings);
    expect(back).toEqual({ ...untouched, exclusions: back.exclusions });
    expect(back.exclusions).toHaveLength(2);
    expect(without.delivery?.law).not.toEqual(untouched.delivery?.law);
  });
});
