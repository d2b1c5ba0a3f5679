import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { ChannelName } from '../../../analysis/channels.ts';
import { QUALITY, type Readings } from '../../../analysis/readings.ts';
import type { BenchRecord } from '../../../analysis/records/benchRecord.ts';
import { type RunKind, runRecord } from '../../../analysis/records/runRecord.ts';
import { columnSuspicions } from '../../../analysis/suspicion/columnSuspicions.ts';
import { decodeJournal } from '../../../rig/decode/decodeJournal.ts';
import { benchWithChannel, inventedCalibration } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { inventedRun } from '../../support/inventedRun.ts';
import { recordPractice } from '../../support/practiceRun.ts';
import { normal } from '../../support/random.ts';
import { sampledReadings } from '../../support/readings.ts';

const BAROMETER_PA = 101_325;
const LITRE_PER_MIN = 1e-3 / 60;

type Course = (atS: number) => number;

/** Speed and pressure stepped every 15 s, 10 to 20 rev/s and 1 to 6 bar. */
const speedAt: Course = (atS) => 10 + 5 * (Math.floor(atS / 15) % 3);
const gaugeAt: Course = (atS) => 1e5 + 2.5e5 * (Math.floor(atS / 15) % 3);

/** Nearest step; a step of nothing leaves the value. */
function rounded(value: number, step: number): number {
  return step === 0 ? value : Math.round(value / step) * step;
}

/** A minute and a half of a delivery run with a noise on every channel, some of them otherwise. */
function stepped(seed: number, others: Readonly<Partial<Record<ChannelName, Course>>> = {}): Readings {
  const noise = normal(seed);
  return sampledReadings(90, 50, {
    speed: (atS) => speedAt(atS) + 0.01 * noise(),
    suctionPressure: () => 0.97e5 + 60 * noise(),
    deliveryPressure: (atS) => BAROMETER_PA + gaugeAt(atS) + 400 * noise(),
    flow: (atS) => 16e-6 * speedAt(atS) - 2e-11 * gaugeAt(atS) + 6e-7 * noise(),
    oilTemperature: (atS) => 318 + 0.002 * atS + 0.02 * noise(),
    ...others,
  });
}

function suspicionsOf(readings: Readings, bench: BenchRecord = inventedBench(), kind: RunKind = 'delivery') {
  return columnSuspicions(inventedRun(kind, bench), readings).map(({ code, severity, text }) => ({
    code,
    severity,
    channel: /'(.*?)'/.exec(text)?.[1],
  }));
}

describe('columnSuspicions', () => {
  it('finds nothing in a healthy run (seeds 1 to 20)', () => {
    for (let seed = 1; seed <= 20; seed += 1) expect(suspicionsOf(stepped(seed))).toEqual([]);
  });

  it('finds nothing in healthy practice runs of three kinds of pump (seeds 1 to 3)', () => {
    for (let seed = 1; seed <= 3; seed += 1) {
      for (const pump of ['externalGear', 'screw', 'internalGear'] as const) {
        const { run, decoded } = recordPractice('dryLift', 'healthy', seed, { pump });
        expect(columnSuspicions(run, decoded.readings)).toEqual([]);
      }
    }
    const { run, decoded } = recordPractice('delivery', 'healthy', 1, { lookEveryS: 1 });
    expect(columnSuspicions(run, decoded.readings)).toEqual([]);
  });

  it('finds nothing in the sample runs', () => {
    const runs = new URL('../../../samples/runs/', import.meta.url);
    for (const id of readdirSync(runs)) {
      const text = (name: string): string => readFileSync(new URL(`${id}/${name}`, runs), 'utf8');
      const run = runRecord.parse(JSON.parse(text('run.json')));
      const { readings } = decodeJournal(text('journal.log'), run.bench, run.setUp.barometerPa.value);
      expect(readings.elapsedS.length).toBeGreaterThan(100);
      expect(columnSuspicions(run, readings)).toEqual([]);
    }
  });

  it('sees in a long run at 1000 readings a second what it sees in a short one (seed 21)', () => {
    const noise = normal(21);
    const long = sampledReadings(200, 1000, {
      speed: (atS) => speedAt(atS) + 0.01 * noise(),
      flow: (atS) => 16e-6 * speedAt(atS) + 6e-7 * noise(),
      deliveryPressure: (atS) => BAROMETER_PA + gaugeAt(atS) + 400 * noise(),
    });
    expect(suspicionsOf(long)).toEqual([]);
    long.channels.flow?.values.fill(2.1e-4, 35_000, 41_000);
    expect(suspicionsOf(long)).toEqual([{ code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'flow' }]);
  });

  it('takes coarse instruments for what they are: steps of 1 r/min, 0.1 bar, 0.1 K, and a drive that holds its speed', () => {
    const noise = normal(2);
    const coarse = stepped(1, {
      speed: (atS) => rounded(speedAt(atS), 1 / 60),
      suctionPressure: () => rounded(0.97e5 + 300 * noise(), 1000),
      deliveryPressure: (atS) => BAROMETER_PA + rounded(gaugeAt(atS) + 1500 * noise(), 1e4),
      oilTemperature: (atS) => rounded(318 + 0.002 * atS + 0.01 * noise(), 0.1),
    });
    expect(suspicionsOf(coarse)).toEqual([]);
  });

  it('takes the silence of a bench at rest, and of a meter behind a dry pump, for what it is', () => {
    const resting = stepped(3, {
      speed: (atS) => (atS < 40 ? 0 : speedAt(atS)),
      flow: (atS) => (atS < 40 ? 0 : 16e-6 * speedAt(atS) + 6e-7 * Math.sin(37 * atS)),
      deliveryPressure: (atS) => (atS < 40 ? BAROMETER_PA : BAROMETER_PA + gaugeAt(atS) + 400 * Math.sin(41 * atS)),
    });
    expect(suspicionsOf(resting)).toEqual([]);
    const noise = normal(4);
    const dry = stepped(4, { flow: (atS) => (atS < 50 ? 0 : 2e-4 + 6e-7 * noise()) });
    expect(suspicionsOf(dry, inventedBench(), 'dryLift')).toEqual([]);
    expect(suspicionsOf(stepped(4, { flow: () => 0 }), inventedBench(), 'dryLift')).toEqual([]);
  });
});

describe('SENSOR_FROZEN', () => {
  it('is said of a flow that never changes while the speed does', () => {
    expect(suspicionsOf(stepped(5, { flow: () => 2e-4 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'flow' },
    ]);
  });

  it('is said of a pressure that speed must move, and of a suction pressure with a fine step that flow must move', () => {
    expect(suspicionsOf(stepped(22, { deliveryPressure: () => BAROMETER_PA + 4e5 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'delivery pressure' },
    ]);
    const noise = normal(22);
    const suction = stepped(22, {
      suctionPressure: () => 0.97e5,
      flow: (atS) => 2e-5 * (speedAt(atS) - 5) + 6e-7 * noise(),
    });
    expect(suspicionsOf(suction, benchWithChannel('suctionPressure', { resolution: 0.0005 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'suction pressure' },
    ]);
    // A step of 0.02 bar hides what the suction pipe does; an open valve holds the outlet at the barometer's pressure.
    expect(suspicionsOf(suction, benchWithChannel('suctionPressure', { resolution: 0.02 }))).toEqual([]);
    expect(suspicionsOf(stepped(22, { deliveryPressure: () => BAROMETER_PA }))).toEqual([]);
  });

  it('is said of each hold channel that sticks for ten seconds though it trembled before (seeds 6 to 10)', () => {
    const labels = {
      speed: 'speed',
      suctionPressure: 'suction pressure',
      deliveryPressure: 'delivery pressure',
      flow: 'flow',
      oilTemperature: 'oil temperature at the inlet',
    } as const;
    for (const [index, channel] of (
      ['speed', 'suctionPressure', 'deliveryPressure', 'flow', 'oilTemperature'] as const
    ).entries()) {
      const readings = stepped(6 + index);
      // Ten seconds of 50 readings each, 20 s to 30 s: the middle of a level, so that the value is no extreme.
      const values = readings.channels[channel]?.values;
      values?.fill(values[1000] ?? 0, 1000, 1500);
      expect(suspicionsOf(readings)).toEqual([{ code: 'SENSOR_FROZEN', severity: 'unfit', channel: labels[channel] }]);
    }
  });

  it('says from when to when, and what to do', () => {
    const readings = stepped(11);
    readings.channels.flow?.values.fill(15 * LITRE_PER_MIN, 1000, 1500);
    const [finding] = columnSuspicions(inventedRun('delivery'), readings);
    expect(finding?.text).toMatch(/^'flow' said 15 l\/min without the least change from 20 s to 30 s/);
    expect(finding?.text).toMatch(/repeat the run\.$/);
  });

  it('is said of a pick-up that is silent while oil flows, and of a meter that is silent while the pump delivers', () => {
    expect(suspicionsOf(stepped(12, { speed: () => 0 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'speed' },
    ]);
    expect(suspicionsOf(stepped(12, { flow: () => 0 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'flow' },
    ]);
  });

  it('is said of a thermometer with a step of 0.01 K that never leaves it in two minutes, not of one with 0.1 K', () => {
    const noise = normal(13);
    const still = sampledReadings(130, 50, {
      speed: () => 15 + 0.01 * noise(),
      suctionPressure: () => 0.97e5 + 60 * noise(),
      deliveryPressure: () => 4e5 + 400 * noise(),
      flow: () => 2e-4 + 6e-7 * noise(),
      oilTemperature: () => 318.15,
    });
    expect(suspicionsOf(still, benchWithChannel('oilTemperature', { resolution: 0.01 }))).toEqual([
      { code: 'SENSOR_FROZEN', severity: 'unfit', channel: 'oil temperature at the inlet' },
    ]);
    expect(suspicionsOf(still, benchWithChannel('oilTemperature', { resolution: 0.1 }))).toEqual([]);
  });
});

describe('SENSOR_CLIPPED', () => {
  it('is said of a pressure whose highest level is cut off', () => {
    const whole = stepped(14);
    const clipped = whole.channels.deliveryPressure?.values.map((value) => Math.min(value, BAROMETER_PA + 5e5));
    const quality = whole.channels.deliveryPressure?.quality;
    if (clipped === undefined || quality === undefined) throw new Error('no pressure');
    const channels = { ...whole.channels, deliveryPressure: { values: clipped, quality } };
    expect(suspicionsOf({ ...whole, channels })).toEqual([
      { code: 'SENSOR_CLIPPED', severity: 'unfit', channel: 'delivery pressure' },
    ]);
  });

  it('is said of a noise that only touches the limit, of a low end, and past a single wild reading', () => {
    const touching = stepped(15);
    const { flow, suctionPressure } = touching.channels;
    if (flow === undefined || suctionPressure === undefined) throw new Error('no flow');
    // By hand: the highest flow is 16e-6 · 20 − 2e-11 · 6e5 = 3.08e-4 m³/s; cut at its mean, half of its readings are cut.
    flow.values.set(flow.values.map((value) => Math.min(value, 3.08e-4)));
    flow.values[2000] = 9e-4;
    suctionPressure.values.set(suctionPressure.values.map((value) => Math.max(value, 0.97e5 - 60)));
    expect(suspicionsOf(touching)).toEqual([
      { code: 'SENSOR_CLIPPED', severity: 'unfit', channel: 'suction pressure' },
      { code: 'SENSOR_CLIPPED', severity: 'unfit', channel: 'flow' },
    ]);
  });

  it('is said of a channel that stands at the end of its range all the time', () => {
    expect(suspicionsOf(stepped(16, { suctionPressure: () => 2e5 }))).toEqual([
      { code: 'SENSOR_CLIPPED', severity: 'unfit', channel: 'suction pressure' },
    ]);
  });

  it('is a warning where no hold rests on the channel', () => {
    const bench = inventedBench();
    const [first] = bench.channels;
    if (first === undefined) throw new Error('no channel');
    const torque = { ...first, channel: 'torque' as const, position: 6, unit: 'N m', range: { min: 0, max: 5 } };
    const noise = normal(17);
    const readings = stepped(17, { torque: (atS) => Math.min(3.5, 2 + gaugeAt(atS) * 3e-6 + 0.02 * noise()) });
    expect(suspicionsOf(readings, { ...bench, channels: [...bench.channels, torque] })).toEqual([
      { code: 'SENSOR_CLIPPED', severity: 'warning', channel: 'shaft torque' },
    ]);
  });
});

describe('SENSOR_SATURATED', () => {
  it('is said of counts that stand at the last code of a 16-bit converter', () => {
    // By hand: 0 to 16 bar on 0 to 32000 counts, 0.0005 bar a count; 32767 counts are 16.3835 bar(g), just beyond the range.
    const step = 0.0005;
    const bench = benchWithChannel('deliveryPressure', { scale: { gain: step, offset: 0 } });
    const noise = normal(18);
    const readings = stepped(18, {
      deliveryPressure: (atS) => {
        const counts = atS > 60 ? 32_767 : Math.round(gaugeAt(atS) / 1e5 / step + 8 * noise());
        return BAROMETER_PA + counts * step * 1e5;
      },
    });
    readings.channels.deliveryPressure?.quality.fill(QUALITY.outOfRange, 3001);
    expect(suspicionsOf(readings, bench)).toEqual([
      { code: 'SENSOR_SATURATED', severity: 'unfit', channel: 'delivery pressure' },
    ]);
    expect(columnSuspicions(inventedRun('delivery', bench), readings)[0]?.text).toContain('32767 counts');
  });

  it('is said of a 12-bit converter behind a calibration curve', () => {
    // By hand: a straight curve through (0, 0), (2000, 20), (4000, 40): 0.01 l/min a count; 4095 counts are 40.95 l/min.
    const calibration = inventedCalibration({
      curve: {
        degree: 1,
        points: [0, 2000, 4000].map((raw) => ({ raw, reference: raw / 100 })),
        referenceStandardUncertainty: 0.01,
      },
    });
    const bench = benchWithChannel('flow', { calibration });
    const noise = normal(19);
    const flow: Course = (atS) =>
      (atS > 70 ? 4095 : Math.round((600 * speedAt(atS)) / 10 + 3 * noise())) * 0.01 * LITRE_PER_MIN;
    expect(suspicionsOf(stepped(19, { flow }), bench)).toEqual([
      { code: 'SENSOR_SATURATED', severity: 'unfit', channel: 'flow' },
    ]);
  });

  it('adds the zero back that was taken off the readings', () => {
    // By hand: 0.01 l/min a count, 0.05 l/min taken off: the last code of 12 bits stands at 40.90 l/min.
    const bench = benchWithChannel('flow', { scale: { gain: 0.01, offset: 0 } });
    const noise = normal(23);
    const flow: Course = (atS) =>
      ((atS > 70 ? 4095 : Math.round(60 * speedAt(atS) + 3 * noise())) * 0.01 - 0.05) * LITRE_PER_MIN;
    const zero = { channel: 'flow', offset: 0.05, standardUncertainty: 0.001, isApplied: true };
    const zeroCheck = { takenAtUtc: '2026-06-01T07:55:00Z', channels: [zero] };
    const findings = columnSuspicions({ ...inventedRun('delivery', bench), zeroCheck }, stepped(23, { flow }));
    expect(findings.map(({ code }) => code)).toEqual(['SENSOR_SATURATED']);
  });

  it('is not said of a number inside the range that happens to be such a code', () => {
    const bench = benchWithChannel('flow', { scale: { gain: 0.01, offset: 0 } });
    const noise = normal(20);
    // By hand: 10.23 l/min is 1023 counts, a quarter of the range.
    const flow: Course = (atS) =>
      Math.min(1023, Math.round(900 + 5 * speedAt(atS) + 3 * noise())) * 0.01 * LITRE_PER_MIN;
    expect(suspicionsOf(stepped(20, { flow }), bench).map(({ code }) => code)).not.toContain('SENSOR_SATURATED');
  });
});
