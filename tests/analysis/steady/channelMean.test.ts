import { describe, expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import type { BenchRecord } from '../../../analysis/records/benchRecord.ts';
import { channelMean } from '../../../analysis/steady/channelMean.ts';
import { benchWithChannel } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const LITRE_PER_MIN = 1e-3 / 60;

function flowMean(flow: (atS: number) => number, bench: BenchRecord = inventedBench(), badCount = 0) {
  const readings = sampledReadings(10, 50, { flow });
  readings.channels.flow?.quality.fill(QUALITY.missing, 0, badCount);
  const conditions = { bench, barometerPa: 1e5, zeroCheck: null };
  return channelMean(readings, { first: 0, end: 500 }, 3, 'flow', conditions, () => 0);
}

describe('channelMean', () => {
  it('has the standard deviation of the mean of independent readings as its scatter (seed 1)', () => {
    // JCGM 100, 4.2.3: s/√n; s of 500 readings is known to 3 %, the sum of autocorrelations of white noise adds some 5 %.
    const noise = normal(1);
    const mean = flowMean(() => 2e-4 + 5e-7 * noise());
    expectRelative(mean?.source.standardUncertainty ?? Number.NaN, 5e-7 / Math.sqrt(500), 0.2);
    expect(mean?.source).toMatchObject({ id: 'hold.3.flow', kind: 'random' });
    expect(mean?.value.sensitivities['hold.3.flow']).toBe(1);
  });

  it('adds half a step of rounding either way, which no number of readings averages out', () => {
    // By hand: a value that never changes scatters by nothing; step 0.1 l/min, 0.1/√12 = 0.028868 l/min.
    const bench = benchWithChannel('flow', { resolution: 0.1 });
    const mean = flowMean(() => 12 * LITRE_PER_MIN, bench);
    expectRelative(mean?.source.standardUncertainty ?? Number.NaN, (0.1 / Math.sqrt(12)) * LITRE_PER_MIN, 1e-9);
    expect(mean?.change).toBeNull();
    expect(mean?.effectiveCount).toBe(1);
  });

  it('carries the errors of the calibration, common to all holds', () => {
    // By hand: ∂true/∂gain = −reading, ∂true/∂offset = −1.
    const mean = flowMean(() => 12 * LITRE_PER_MIN);
    expectRelative(mean?.value.sensitivities['flow.gain'] ?? Number.NaN, -12 * LITRE_PER_MIN, 1e-9);
    expect(mean?.value.sensitivities['flow.offset']).toBe(-1);
  });

  it('is none of a channel that was silent for more than half of the hold', () => {
    expect(flowMean(() => 2e-4, inventedBench(), 250)?.value.value).toBe(2e-4);
    expect(flowMean(() => 2e-4, inventedBench(), 251)).toBeNull();
  });

  it('refuses a channel that bench or readings lack', () => {
    const bench = inventedBench();
    const others = { ...bench, channels: bench.channels.filter(({ channel }) => channel !== 'flow') };
    expect(() => flowMean(() => 2e-4, others)).toThrow(RangeError);
    const readings = sampledReadings(10, 50, { speed: () => 15 });
    const conditions = { bench, barometerPa: 1e5, zeroCheck: null };
    expect(() => channelMean(readings, { first: 0, end: 500 }, 1, 'flow', conditions, () => 0)).toThrow(RangeError);
  });
});
