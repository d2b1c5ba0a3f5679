import { describe, expect, it } from 'vitest';
import { BAROMETER_SOURCE_ID, channelSources, channelValue } from '../../../analysis/calibration/channelSources.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function channelOf(name: string) {
  const channel = inventedBench().channels.find((entry) => entry.channel === name);
  if (channel === undefined) throw new Error(name);
  return channel;
}

describe('the errors of a channel', () => {
  it('puts a gain error on the gauge reading, not on the absolute pressure', () => {
    // By hand: 3 bar(g) read, gain u = 0.15 %, offset u = 0.003 bar → u = √(450² + 300²) Pa = 540.8 Pa.
    const channel = channelOf('deliveryPressure');
    const value = channelValue(channel, 101325 + 3e5, 101325);
    const { [BAROMETER_SOURCE_ID]: perBarometer, ...own } = value.sensitivities;
    const stated = stateUncertainty({ value: value.value, sensitivities: own }, sourceTable(channelSources(channel)));
    expectRelative(stated.standardUncertainty, Math.hypot(450, 300), 1e-12);
    expect(perBarometer).toBe(1);
  });

  it('takes the error off an indication that reads high', () => {
    // By hand: 10.03 l/min indicated by a meter that reads 0.3 % high is 10.00 l/min: −0.03 l/min.
    const flow = channelValue(channelOf('flow'), 10.03e-3 / 60, 101325);
    expectRelative((flow.sensitivities['flow.gain'] ?? 0) * 0.003, -0.03009e-3 / 60, 1e-6);
    expect(flow.sensitivities[BAROMETER_SOURCE_ID]).toBeUndefined();
  });

  it('gives an absolute pressure no share in the barometer and a temperature none in its gain at 0 °C', () => {
    expect(
      channelValue(channelOf('suctionPressure'), 97000, 101325).sensitivities[BAROMETER_SOURCE_ID],
    ).toBeUndefined();
    expect(channelValue(channelOf('oilTemperature'), 273.15, 101325).sensitivities['oilTemperature.gain']).toBe(-0);
  });

  it('has no sources for a channel that nobody calibrated', () => {
    const channel = { ...channelOf('flow'), calibration: null };
    expect(channelSources(channel)).toEqual([]);
    expect(channelValue(channel, 1e-4, 101325).sensitivities).toEqual({});
  });
});
