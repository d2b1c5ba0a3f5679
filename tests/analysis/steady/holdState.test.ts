import { describe, expect, it } from 'vitest';
import type { ChannelName } from '../../../analysis/channels.ts';
import { QUALITY, type Readings } from '../../../analysis/readings.ts';
import { type BenchRecord, benchRecord } from '../../../analysis/records/benchRecord.ts';
import { type HoldState, holdState, missingHoldChannels } from '../../../analysis/steady/holdState.ts';
import type { Uncertain } from '../../../analysis/uncertainty/source.ts';
import { inventedCalibration } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { cutReadings, everyNth } from '../../support/cutReadings.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const BAROMETER_PA = 101_325;

type Course = (atS: number) => number;

/** White noise, or one that forgets by 1/e in so many seconds; of standard deviation 1 either way. */
function noiseOf(seed: number, memoryS: number, readingsPerS: number): () => number {
  const next = normal(seed);
  const kept = memoryS === 0 ? 0 : Math.exp(-1 / (memoryS * readingsPerS));
  let last = next();
  return () => {
    last = kept * last + Math.sqrt(1 - kept ** 2) * next();
    return last;
  };
}

function steady(
  seed: number,
  others: Readonly<Partial<Record<ChannelName, Course>>> = {},
  { durationS = 10, readingsPerS = 50, memoryS = 0 } = {},
): Readings {
  const noise = (channel: number): (() => number) => noiseOf(10 * seed + channel, memoryS, readingsPerS);
  const [speed, suction, delivery, flow, oil] = [1, 2, 3, 4, 5].map(noise);
  const of = (one: (() => number) | undefined): number => one?.() ?? Number.NaN;
  return sampledReadings(durationS, readingsPerS, {
    speed: () => 15 + 0.01 * of(speed),
    suctionPressure: () => 0.97e5 + 60 * of(suction),
    deliveryPressure: () => 5e5 + 400 * of(delivery),
    flow: () => 2e-4 + 6e-7 * of(flow),
    oilTemperature: () => 318 + 0.02 * of(oil),
    ...others,
  });
}

function stateOf(readings: Readings, bench: BenchRecord = inventedBench()): HoldState {
  const whole = { first: 0, end: readings.elapsedS.length };
  return holdState(readings, whole, 1, bench, INVENTED_VG46, BAROMETER_PA);
}

const MEANS = {
  speed: (state: HoldState): Uncertain => state.speedRevPerS,
  suctionPressure: (state: HoldState): Uncertain => state.suctionPressurePa,
  deliveryPressure: (state: HoldState): Uncertain => state.deliveryPressurePa,
  oilTemperature: (state: HoldState): Uncertain => state.oilTemperatureK,
} as const;

function scatterOf(state: HoldState, channel: ChannelName): number {
  return state.sources.find(({ id }) => id === `hold.1.${channel}`)?.standardUncertainty ?? Number.NaN;
}

describe('holdState', () => {
  it('averages what stood still (seed 1)', () => {
    const state = stateOf(steady(1));
    // Truth by construction; 3.3 standard uncertainties hold it in 99.9 % of seeds.
    const truths = { speed: 15, suctionPressure: 0.97e5, deliveryPressure: 5e5, oilTemperature: 318 } as const;
    for (const channel of ['speed', 'suctionPressure', 'deliveryPressure', 'oilTemperature'] as const) {
      const off = Math.abs(MEANS[channel](state).value - truths[channel]);
      expect(off).toBeLessThanOrEqual(3.3 * scatterOf(state, channel));
    }
    expectRelative(
      state.differentialPressurePa.value,
      state.deliveryPressurePa.value - state.suctionPressurePa.value,
      1e-12,
    );
    expect(state).toMatchObject({ readingCount: 500, wildReadingCount: 0, startS: 0, leftOut: null });
    expect(state.sources).toHaveLength(5);
  });

  it('states a scatter that holds the truth (seeds 1 to 300)', () => {
    // 95 % of means within 1.96 u; at 0.1 % the binomial region of 300 begins at 271. White noise.
    let heldCount = 0;
    for (let seed = 1; seed <= 300; seed += 1) {
      const state = stateOf(steady(seed));
      if (Math.abs(state.speedRevPerS.value - 15) <= 1.96 * scatterOf(state, 'speed')) heldCount += 1;
    }
    expect(heldCount).toBeGreaterThanOrEqual(271);
  });

  it('leaves single wild readings out of every mean (seed 2)', () => {
    const clean = steady(2);
    const spoilt = steady(2);
    for (const column of Object.values(spoilt.channels)) {
      column.values[100] = 0;
      column.values[350] = 1e9;
    }
    const [before, after] = [stateOf(clean), stateOf(spoilt)];
    expect(after.wildReadingCount).toBe(10);
    for (const channel of ['speed', 'suctionPressure', 'deliveryPressure', 'oilTemperature'] as const) {
      // Two readings of 500 less: the mean moves by a fraction of its own scatter.
      const moved = Math.abs(MEANS[channel](after).value - MEANS[channel](before).value);
      expect(moved).toBeLessThanOrEqual(0.5 * scatterOf(before, channel));
    }
  });

  it('says of 4.6 % of channels that truly stand still that they drift, not more (seeds 1 to 400)', () => {
    // Beyond twice the standard uncertainty lie 4.55 % of normal estimates; at 0.1 % the binomial region of 2000 ends at 121.
    let count = 0;
    for (let seed = 1; seed <= 400; seed += 1) count += stateOf(steady(seed)).drifts.length;
    expect(count).toBeLessThanOrEqual(121);
    expect(count).toBeGreaterThan(0);
  });

  it('does not take the memory of a slow instrument for a drift (seeds 1 to 200)', () => {
    // A memory of 0.3 s in 10 s: the sum of autocorrelations is cut at the first that is not positive and so a little low.
    // 10 % are allowed for; at 0.1 % the binomial region of 1000 ends at 130.
    let count = 0;
    for (let seed = 1; seed <= 200; seed += 1) count += stateOf(steady(seed, {}, { memoryS: 0.3 })).drifts.length;
    expect(count).toBeLessThanOrEqual(130);
  });

  it('finds a drift within the limits, and how large it is (seed 3)', () => {
    const noise = normal(3);
    const state = stateOf(steady(3, { oilTemperature: (atS) => 318 + 0.03 * atS + 0.02 * noise() }));
    const drift = state.drifts.find(({ channel }) => channel === 'oilTemperature');
    // By construction 0.03 K/s over 9.98 s.
    expect(Math.abs((drift?.change ?? Number.NaN) - 0.2994)).toBeLessThanOrEqual(4 * (drift?.standardUncertainty ?? 0));
    expect(drift?.standardUncertainty).toBeLessThan(0.02);
  });

  it('is the same at a tenth of the readings within what it states (seeds 1 to 40)', () => {
    // Noise that forgets in 0.1 s, read 1000 and 100 times a second: the very same course, so that the means differ by less
    // than their scatter; the scatters by what autocorrelations from 10 s can tell.
    let within = 0;
    let effectiveSum = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const fast = steady(seed, {}, { readingsPerS: 1000, memoryS: 0.1 });
      const [often, seldom] = [stateOf(fast), stateOf(everyNth(fast, 10))];
      for (const channel of ['speed', 'suctionPressure', 'deliveryPressure', 'oilTemperature'] as const) {
        const moved = Math.abs(MEANS[channel](often).value - MEANS[channel](seldom).value);
        if (moved <= scatterOf(often, channel)) within += 1;
        const ratio = scatterOf(often, channel) / scatterOf(seldom, channel);
        expect(ratio).toBeGreaterThan(0.5);
        expect(ratio).toBeLessThan(2);
      }
      effectiveSum += often.effectiveReadingCount;
    }
    // By theory a memory of τ makes T/(2 τ) independent readings of a long hold: 10 s/0.2 s = 50. One estimate scatters by half
    // (Bartlett), the mean of 40 by 8 %; three times that.
    expectRelative(effectiveSum / 40, 50, 0.25);
    expect(within).toBe(160);
  });

  it('names what it lacks', () => {
    const readings = cutReadings(steady(4), 0, 500);
    const { flow, ...others } = readings.channels;
    expect(missingHoldChannels({ ...readings, channels: others })).toEqual(['flow']);
    expect(() => stateOf({ ...readings, channels: others })).toThrow(RangeError);
    flow?.quality.fill(QUALITY.outOfRange, 0, 300);
    expect(() => stateOf(readings)).toThrow(RangeError);
  });
});

describe('channels that a bench may have besides', () => {
  function benchWith(...further: readonly (readonly [ChannelName, string, number, number])[]): BenchRecord {
    const bench = inventedBench();
    return benchRecord.parse({
      ...bench,
      channels: [
        ...bench.channels,
        ...further.map(([channel, unit, min, max], index) => ({
          channel,
          position: 6 + index,
          unit,
          range: { min, max },
          instrument: 'invented',
          calibration: inventedCalibration({ offset: { standardUncertainty: 0.1, shape: 'normal' } }),
        })),
      ],
    });
  }
  const FURTHER = [
    ['torque', 'N m', 0, 50],
    ['motorPower', 'W', 0, 5000],
    ['caseTemperature', 'degC', 0, 120],
    ['externalDrain', 'l/min', 0, 5],
  ] as const;

  it('are null where the bench has none', () => {
    const state = stateOf(steady(5, { torque: () => 10 }));
    expect(state).toMatchObject({
      torqueNM: null,
      motorPowerW: null,
      caseTemperatureK: null,
      externalDrainM3PerS: null,
    });
  });

  it('are averaged with their own calibration and scatter (seed 6)', () => {
    const noise = normal(6);
    const readings = steady(6, {
      torque: () => 12 + 0.05 * noise(),
      motorPower: () => 1500 + 5 * noise(),
      caseTemperature: () => 325 + 0.02 * noise(),
      externalDrain: () => 2e-6,
    });
    const state = stateOf(readings, benchWith(...FURTHER));
    // Truth by construction; 3.3 standard uncertainties of 500 independent readings.
    expect(Math.abs((state.torqueNM?.value ?? Number.NaN) - 12)).toBeLessThan((3.3 * 0.05) / Math.sqrt(500));
    expect(Math.abs((state.motorPowerW?.value ?? Number.NaN) - 1500)).toBeLessThan((3.3 * 5) / Math.sqrt(500));
    expect(Math.abs((state.caseTemperatureK?.value ?? Number.NaN) - 325)).toBeLessThan((3.3 * 0.02) / Math.sqrt(500));
    expectRelative(state.externalDrainM3PerS?.value ?? Number.NaN, 2e-6, 1e-12);
    expect(state.torqueNM?.sensitivities['torque.offset']).toBe(-1);
    expect(state.torqueNM?.sensitivities['hold.1.torque']).toBe(1);
    // The drain joins what was drawn in and nothing else.
    const without = stateOf(readings);
    expectRelative(state.inletFlowM3PerS.value - without.inletFlowM3PerS.value, 2e-6, 1e-6);
    expect(state.flowM3PerS.value).toBe(without.flowM3PerS.value);
  });

  it('are null in a hold of which they miss more than half', () => {
    const readings = steady(7, { torque: () => 12 });
    readings.channels.torque?.quality.fill(QUALITY.missing, 0, 251);
    expect(stateOf(readings, benchWith(...FURTHER)).torqueNM).toBeNull();
    readings.channels.torque?.quality.fill(QUALITY.good, 0, 5);
    expect(stateOf(readings, benchWith(...FURTHER)).torqueNM?.value).toBe(12);
  });

  it('free the flow of what was assumed of the meter', () => {
    const bench = benchWith(['meterTemperature', 'degC', 0, 120], ['meterPressure', 'bar(a)', 0, 5]);
    const readings = steady(8, { meterTemperature: () => 321, meterPressure: () => 1.4e5 });
    expect(stateOf(readings).inletFlowM3PerS.sensitivities['flow.meterTemperature']).not.toBe(0);
    const measured = stateOf(readings, bench).inletFlowM3PerS.sensitivities;
    expect(measured['flow.meterTemperature'] ?? 0).toBe(0);
    expect(measured['meterTemperature.offset']).not.toBe(0);
    expect(measured['meterPressure.offset']).not.toBe(0);
  });
});

describe('the lag of a sensor', () => {
  function benchWithLag(lagS: number): BenchRecord {
    const bench = inventedBench();
    return {
      ...bench,
      channels: bench.channels.map((entry) => (entry.channel === 'oilTemperature' ? { ...entry, lagS } : entry)),
    };
  }

  it('is made good in a steady drift: the mean is the oil, not the late thermometer', () => {
    // By hand: oil 318 + 0.02 t, thermometer 20 s late and so 0.4 K low; over 0 to 9.98 s the oil's mean is 318 + 0.02 · 4.99.
    const readings = steady(9, { oilTemperature: (atS) => 318 + 0.02 * (atS - 20) });
    expectRelative(stateOf(readings, benchWithLag(20)).oilTemperatureK.value - 318, 0.0998, 1e-6);
    expectRelative(stateOf(readings, benchWithLag(0)).oilTemperatureK.value - 318, 0.0998 - 0.4, 1e-6);
  });

  it('is made good after a step of the oil while the thermometer still creeps', () => {
    // By hand: dx/dt = (T − x)/τ with τ = 30 s, 0.5 K low at the hold's beginning: x = 318 − 0.5 e^(−t/30). The mean is 0.43 K
    // low; x + τ dx/dt is T exactly, and the straight line through ten seconds of it leaves (T/τ)²/60 = 0.2 % of the 0.43 K.
    const readings = steady(10, { oilTemperature: (atS) => 318 - 0.5 * Math.exp(-atS / 30) });
    expect(Math.abs(stateOf(readings, benchWithLag(30)).oilTemperatureK.value - 318)).toBeLessThan(0.002);
    expect(318 - stateOf(readings, benchWithLag(0)).oilTemperatureK.value).toBeGreaterThan(0.4);
  });

  it('widens the mean by what the rate may be off (seed 11)', () => {
    const noise = normal(11);
    const readings = steady(11, { oilTemperature: () => 318 + 0.02 * noise() });
    // By hand for white noise: u(rate) = σ √12/(T √n) = 0.02 · 3.46/(10 · 22.4) = 3.1e-4 K/s; times 30 s 0.0093 K.
    expectRelative(scatterOf(stateOf(readings, benchWithLag(30)), 'oilTemperature'), 0.0093, 0.25);
    expect(scatterOf(stateOf(readings, benchWithLag(0)), 'oilTemperature')).toBeLessThan(0.0015);
  });
});
