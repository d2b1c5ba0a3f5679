import { describe, expect, it } from 'vitest';
import type { ChannelName } from '../../../analysis/channels.ts';
import { QUALITY } from '../../../analysis/readings.ts';
import type { ZeroCheck } from '../../../analysis/records/runRecord.ts';
import { channelReader } from '../../../rig/decode/channelReader.ts';
import { createLineDecoder } from '../../../rig/decode/lineDecoder.ts';
import { benchWithChannel, channelWith, inventedCalibration } from '../../support/benchChannel.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { line, sentence } from './sentence.ts';

const BAROMETER_PA = 100_000;

function zeroed(channel: ChannelName, offset: number, isApplied: boolean): ZeroCheck {
  return {
    takenAtUtc: '2026-06-01T07:55:00Z',
    channels: [{ channel, offset, standardUncertainty: 0.001, isApplied }],
  };
}

/** 4 to 20 mA over 0 to 10 bar. */
const loop = channelWith('deliveryPressure', {
  signal: 'currentLoop',
  scale: { gain: 0.625, offset: -2.5 },
  range: { min: -1, max: 11 },
});

describe('a current loop', () => {
  it('is scaled and judged by the milliamperes that came', () => {
    // By hand, (I − 4)/16 × 10 bar: 4, 12, 20, 3.8 and 20.5 mA are 0, 5, 10, −0.125 and 10.3125 bar. Limits: NAMUR NE 43.
    const { read } = channelReader(loop, BAROMETER_PA, null);
    const bars = ['4', '12', '20', '3.8', '20.5'].map(read);
    expect(bars.map(({ quality }) => quality)).toEqual(Array.from({ length: 5 }, () => QUALITY.good));
    for (const [index, bar] of [0, 5, 10, -0.125, 10.3125].entries()) {
      expectRelative(bars[index]?.value ?? Number.NaN, BAROMETER_PA + bar * 1e5, 1e-12);
    }
    expect(['3.7', '20.7'].map((field) => read(field).quality)).toEqual([QUALITY.outOfRange, QUALITY.outOfRange]);
    expect(['0', '3.6', '21.0', '22'].map((field) => read(field).quality)).toEqual(
      Array.from({ length: 4 }, () => QUALITY.sensorFault),
    );
  });

  it('keeps the value of a failed transmitter, marked', () => {
    // By hand: (3.6 − 4)/16 × 10 bar = −0.25 bar.
    expectRelative(channelReader(loop, BAROMETER_PA, null).read('3.6').value, BAROMETER_PA - 25_000, 1e-12);
  });

  it('leaves engineering values alone: 3 bar is no broken wire', () => {
    expect(channelReader(channelWith('deliveryPressure'), BAROMETER_PA, null).read('3').quality).toBe(QUALITY.good);
  });
});

describe('a calibration curve', () => {
  // By hand: y = x/100 + (x/1000)²/10 through its points exactly.
  const counts = channelWith('flow', {
    range: { min: -1, max: 40 },
    calibration: inventedCalibration({
      curve: {
        degree: 2,
        points: [0, 500, 1000, 1500, 2000].map((raw) => ({ raw, reference: raw / 100 + (raw / 1000) ** 2 / 10 })),
        referenceStandardUncertainty: 0,
      },
    }),
  });

  it('turns raw counts into the unit of the channel', () => {
    // By hand: 1200 counts are 12 + 0.144 l/min.
    expectRelative(channelReader(counts, BAROMETER_PA, null).read('1200').value, 12.144e-3 / 60, 1e-9);
  });

  it('marks what lies further beyond its points than a tenth of their span', () => {
    const { read } = channelReader(counts, BAROMETER_PA, null);
    expect(['-199', '2199'].map((field) => read(field).quality)).toEqual([QUALITY.outOfRange, QUALITY.good]);
    expect(['-60', '-201', '2201'].map((field) => read(field).quality)).toEqual([
      QUALITY.good,
      QUALITY.outOfRange,
      QUALITY.outOfRange,
    ]);
  });
});

describe('a zero check', () => {
  it('is taken off where it is applied, and nowhere else', () => {
    const flow = channelWith('flow');
    expectRelative(
      channelReader(flow, BAROMETER_PA, zeroed('flow', 0.05, true)).read('12.05').value,
      12e-3 / 60,
      1e-12,
    );
    for (const check of [zeroed('flow', 0.05, false), zeroed('speed', 0.05, true), null]) {
      expectRelative(channelReader(flow, BAROMETER_PA, check).read('12.05').value, 12.05e-3 / 60, 1e-12);
    }
  });

  it('does not move the range, which is the sensor’s own', () => {
    // By hand: the invented meter ends at 40 l/min; 40.02 is beyond it though 39.97 is left.
    const { read } = channelReader(channelWith('flow'), BAROMETER_PA, zeroed('flow', 0.05, true));
    expect(read('40.02').quality).toBe(QUALITY.outOfRange);
    expect(read('39.99').quality).toBe(QUALITY.good);
  });

  it('reaches a run’s readings through the line decoder', () => {
    const bench = benchWithChannel('flow', {});
    const decoded = createLineDecoder(bench, BAROMETER_PA, zeroed('flow', -0.5, true)).push(
      line(sentence('1,1,1,2,12,600,40')),
    );
    if (decoded.kind !== 'reading') throw new Error(decoded.kind);
    expectRelative(decoded.row.channels.flow?.value ?? Number.NaN, 12.5e-3 / 60, 1e-12);
  });
});
