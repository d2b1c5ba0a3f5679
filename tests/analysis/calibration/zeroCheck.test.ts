import { describe, expect, it } from 'vitest';
import { appliedZero } from '../../../analysis/calibration/appliedZero.ts';
import { takeZeroCheck, withApplied } from '../../../analysis/calibration/zeroCheck.ts';
import type { ChannelName } from '../../../analysis/channels.ts';
import { QUALITY, type Readings } from '../../../analysis/readings.ts';
import type { BenchRecord } from '../../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../../analysis/records/runRecord.ts';
import { accepted } from '../../support/accepted.ts';
import { benchWithChannel, inventedCalibration } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const BAROMETER_PA = 100_000;
const CIRCUMSTANCES = { barometerPa: BAROMETER_PA, oilDensityKgPerM3: 870, takenAtUtc: '2026-06-01T07:55:00Z' };
const LITRE_PER_MIN = 1e-3 / 60;

type Course = (atS: number) => number;

/** Ten seconds at rest, noise on every channel; some of them otherwise. */
function atRest(seed: number, others: Readonly<Partial<Record<ChannelName, Course>>> = {}, durationS = 10): Readings {
  const noise = normal(seed);
  return sampledReadings(durationS, 50, {
    suctionPressure: () => BAROMETER_PA + 30 * noise(),
    deliveryPressure: () => BAROMETER_PA + 300 * noise(),
    flow: () => 0.01 * LITRE_PER_MIN * noise(),
    speed: () => 0,
    oilTemperature: () => 313.15,
    ...others,
  });
}

function taken(readings: Readings, bench: BenchRecord = inventedBench()): ZeroCheck {
  return accepted(takeZeroCheck(readings, bench, CIRCUMSTANCES));
}

function zeroOf(check: ZeroCheck, channel: ChannelName) {
  const zero = check.channels.find((entry) => entry.channel === channel);
  if (zero === undefined) throw new Error(`no zero of ${channel}`);
  return zero;
}

function refusalOf(readings: Readings, bench: BenchRecord = inventedBench()) {
  const check = takeZeroCheck(readings, bench, CIRCUMSTANCES);
  return check.ok ? null : { code: check.reason.code, channel: check.reason.channel };
}

describe('a zero check', () => {
  it('holds every channel against what it must say at rest, temperatures left out', () => {
    // By hand: square waves of ±1 about an offset of 0.04 bar, 0.002 bar and 0.03 l/min have these means exactly.
    const wave: Course = (atS) => (Math.round(atS * 50) % 2 === 0 ? 1 : -1);
    const check = taken(
      atRest(1, {
        deliveryPressure: (atS) => BAROMETER_PA + 4000 + 100 * wave(atS),
        suctionPressure: (atS) => BAROMETER_PA + 200 + 10 * wave(atS),
        flow: (atS) => (0.03 + 0.01 * wave(atS)) * LITRE_PER_MIN,
      }),
    );
    expectRelative(zeroOf(check, 'deliveryPressure').offset, 0.04, 1e-9);
    expectRelative(zeroOf(check, 'suctionPressure').offset, 0.002, 1e-9);
    expectRelative(zeroOf(check, 'flow').offset, 0.03, 1e-9);
    expect(zeroOf(check, 'speed').offset).toBe(0);
    expect(check.channels.map(({ channel }) => channel)).not.toContain('oilTemperature');
    expect(check.takenAtUtc).toBe(CIRCUMSTANCES.takenAtUtc);
  });

  it('expects of a transmitter above the inlet the weight of the oil in its tube less', () => {
    // By hand: 870 × 9.80665 × 0.5 = 4265.893 Pa below the atmosphere, the pump's inlet being open to it.
    const bench = benchWithChannel('deliveryPressure', {
      tapping: { heightOverInletM: { value: 0.5, standardUncertainty: 0.01 }, tubeFilledWith: 'oil' },
    });
    const readings = atRest(2, {
      deliveryPressure: (atS) => BAROMETER_PA - 4265.89275 + 500 + (Math.round(atS * 50) % 2 === 0 ? 1 : -1),
    });
    expectRelative(zeroOf(taken(readings, bench), 'deliveryPressure').offset, 0.005, 1e-6);
  });

  it('states the uncertainty of its mean so that it holds the truth (seeds 1 to 200)', () => {
    // White noise about a true offset of nothing: 95 % within 1.96 u; at 0.1 % the binomial region of 200 begins at 179.
    let heldCount = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const { offset, standardUncertainty } = zeroOf(taken(atRest(seed)), 'flow');
      if (Math.abs(offset) <= 1.96 * standardUncertainty) heldCount += 1;
    }
    expect(heldCount).toBeGreaterThanOrEqual(179);
  });

  it('adds the step of the display as a rectangular error', () => {
    // By hand: two values a step of 0.1 l/min apart, in turn: s²/n is 0.0025·500/499/n_eff l²/min²; the step gives 0.1²/12.
    const bench = benchWithChannel('flow', { resolution: 0.1 });
    const readings = atRest(3, { flow: (atS) => (Math.round(atS * 50) % 2) * 0.1 * LITRE_PER_MIN });
    const u = zeroOf(taken(readings, bench), 'flow').standardUncertainty;
    expect(u).toBeGreaterThanOrEqual(0.1 / Math.sqrt(12));
    expect(u).toBeLessThan(0.1 / Math.sqrt(12) + 0.0025);
  });

  it('learns nothing of the zero of a channel that never moves', () => {
    // A meter that counts pulses is silent at rest whatever its offset: 0.005 l/min stay as stated.
    const silent = atRest(4, { flow: () => 0 });
    expect(zeroOf(taken(silent), 'flow')).toMatchObject({ offset: 0, standardUncertainty: 0.005 });
    const uncalibrated = taken(silent, benchWithChannel('flow', { calibration: null }));
    expect(uncalibrated.channels.map(({ channel }) => channel)).not.toContain('flow');
  });

  it('is applied on request only, and only where it was measured', () => {
    const check = taken(atRest(5));
    expect(check.channels.every(({ isApplied }) => !isApplied)).toBe(true);
    const applied = withApplied(check, ['flow']);
    expect(appliedZero(applied, 'flow')).toEqual({ ...zeroOf(check, 'flow'), isApplied: true });
    expect(appliedZero(applied, 'speed')).toBeNull();
    expect(appliedZero(null, 'flow')).toBeNull();
    expect(() => withApplied(check, ['oilTemperature'])).toThrow(RangeError);
  });
});

describe('a zero check is refused', () => {
  it('when it was watched too short', () => {
    expect(refusalOf(atRest(6, {}, 2))).toEqual({ code: 'ZERO_TOO_SHORT', channel: null });
  });

  it('when a channel has no good readings', () => {
    const readings = atRest(7);
    const { flow } = readings.channels;
    if (flow === undefined) throw new Error('no flow');
    const faulty = { ...flow, quality: new Uint8Array(flow.quality.length).fill(QUALITY.sensorFault) };
    expect(refusalOf({ ...readings, channels: { ...readings.channels, flow: faulty } })).toEqual({
      code: 'ZERO_CHANNEL_SILENT',
      channel: 'flow',
    });
  });

  it('when the shaft turns, by what its calibration states or by a thousandth of its range', () => {
    // By hand: 3 × 0.05 r/min with a calibration; 0.001 × 3000 r/min = 3 r/min without.
    expect(refusalOf(atRest(8, { speed: () => 0.2 / 60 }))).toEqual({ code: 'ZERO_SHAFT_TURNS', channel: 'speed' });
    const uncalibrated = benchWithChannel('speed', { calibration: null });
    expect(refusalOf(atRest(8, { speed: () => 2.9 / 60 }), uncalibrated)).toBeNull();
    expect(refusalOf(atRest(8, { speed: () => 3.1 / 60 }), uncalibrated)?.code).toBe('ZERO_SHAFT_TURNS');
  });

  it('when a channel still moves, small as it may be', () => {
    const noise = normal(9);
    const draining: Course = (atS) => (0.05 * Math.exp(-atS / 3) + 0.002 * noise()) * LITRE_PER_MIN;
    expect(refusalOf(atRest(9, { flow: draining }))).toEqual({ code: 'ZERO_NOT_STILL', channel: 'flow' });
  });

  it('when single readings are wild', () => {
    const noise = normal(10);
    const spike: Course = (atS) => BAROMETER_PA + 300 * noise() + (atS === 4 ? 8e5 : 0);
    expect(refusalOf(atRest(10, { deliveryPressure: spike }))).toEqual({
      code: 'ZERO_WILD_READING',
      channel: 'deliveryPressure',
    });
  });

  it('when the line still stands under pressure', () => {
    // By hand: 1 bar is more than 5 % of −1 to 16 bar.
    const noise = normal(11);
    expect(refusalOf(atRest(11, { deliveryPressure: () => BAROMETER_PA + 1e5 + 300 * noise() }))).toEqual({
      code: 'ZERO_NOT_AT_REST',
      channel: 'deliveryPressure',
    });
  });

  it('when the bench has nothing that could be zeroed', () => {
    const bench = inventedBench();
    const channels = bench.channels.filter(({ channel }) => channel === 'oilTemperature');
    expect(refusalOf(atRest(12), { ...bench, channels })).toEqual({ code: 'ZERO_NOTHING_TO_CHECK', channel: null });
  });

  it('not because of the noise that benches have (seeds 1 to 200)', () => {
    // Judged at four standard deviations a channel, some tens per million by chance; 3 of 200 lie far beyond any such chance.
    let refusedCount = 0;
    for (let seed = 1; seed <= 200; seed += 1) if (refusalOf(atRest(seed)) !== null) refusedCount += 1;
    expect(refusedCount).toBeLessThanOrEqual(2);
  });

  it('not because a slow meter remembers its noise (seeds 1 to 200)', () => {
    // A memory of 0.3 s in halves of 5 s, of which some 8 readings are independent. 2 % are allowed for what so few can tell of
    // their own scatter; at 0.1 % the binomial region of 200 ends at 11.
    const kept = Math.exp(-1 / 15);
    let refusedCount = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      const noise = normal(1000 + seed);
      let last = noise();
      const flow: Course = () => {
        last = kept * last + Math.sqrt(1 - kept ** 2) * noise();
        return 0.01 * LITRE_PER_MIN * last;
      };
      if (refusalOf(atRest(seed, { flow }))?.code === 'ZERO_NOT_STILL') refusedCount += 1;
    }
    expect(refusedCount).toBeLessThanOrEqual(11);
  });

  it('never for the calibration: one without errors is held to the display alone', () => {
    const bench = benchWithChannel('speed', { resolution: 0.5, calibration: inventedCalibration() });
    expect(refusalOf(atRest(13, { speed: () => 0.4 / 60 }), bench)).toBeNull();
    expect(refusalOf(atRest(13, { speed: () => 0.6 / 60 }), bench)?.code).toBe('ZERO_SHAFT_TURNS');
  });
});
