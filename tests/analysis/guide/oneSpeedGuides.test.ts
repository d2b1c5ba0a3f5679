import { describe, expect, it } from 'vitest';
import { oneSpeedRevPerS, type RunGuide } from '../../../analysis/guide/guideSetting.ts';
import { ReadingWindow } from '../../../analysis/guide/readingWindow.ts';
import { reliefCeilingPa } from '../../../analysis/guide/reliefGuide.ts';
import { withReturnPoint } from '../../../analysis/guide/returnPoint.ts';
import { createRunGuide } from '../../../analysis/guide/runGuide.ts';
import { QUALITY } from '../../../analysis/readings.ts';
import type { PumpRecord } from '../../../analysis/records/pumpRecord.ts';
import type { RunKind } from '../../../analysis/records/runRecord.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { samplePump } from '../../support/samples.ts';

const BAROMETER_PA = 1e5;
const PUMP = samplePump('dredger-feed-pump');

function guideFor(kind: RunKind, patienceS: number | null = null): RunGuide {
  return createRunGuide({
    kind,
    pump: PUMP,
    bench: inventedBench(),
    barometerPa: BAROMETER_PA,
    sweptVolumeM3PerRev: 13.88e-6,
    deliveryLineVolume: { value: 0, standardUncertainty: 0 },
    wetness: 'W1',
    patienceS,
  });
}

type Moment = { readonly suctionPa: number; readonly gaugePa: number; readonly flowM3PerS: number };

/** A bench with a hand that does at once what it is told, watched at 20 readings a second, looked at twice a second. */
class ObedientBench {
  readonly window = new ReadingWindow(60);
  readonly told: string[] = [];
  private step = 0;

  constructor(
    private readonly guide: RunGuide,
    /** The state of the bench by its clock. */
    private readonly at: (atS: number) => Moment,
  ) {}

  runFor(seconds: number): void {
    const { good } = QUALITY;
    const quality = { speed: good, deliveryPressure: good, suctionPressure: good, flow: good, oilTemperature: good };
    for (const end = this.step + Math.round(20 * seconds); this.step < end; this.step += 1) {
      const { suctionPa, gaugePa, flowM3PerS } = this.at(this.step / 20);
      this.window.push({
        atS: this.step / 20,
        values: {
          speed: 15,
          deliveryPressure: BAROMETER_PA + gaugePa,
          suctionPressure: suctionPa,
          flow: flowM3PerS,
          oilTemperature: 318,
        },
        quality,
      });
      if (this.step % 10 === 0) this.told.push(...this.guide.look(this.window).map(({ kind }) => kind));
    }
  }
}

describe('the guide of a suction run', () => {
  it('opens the suction first, then goes deeper at one pressure difference until a tenth of the flow is lost', () => {
    const guide = guideFor('suction');
    expect(guide.begin().map(({ kind }) => kind)).toEqual([
      'openSuctionAtPump',
      'flood',
      'openValve',
      'openSuction',
      'setSpeed',
      'setDeliveryPressure',
    ]);
    const differences: number[] = [];
    const deep: (number | null | undefined)[] = [];
    // An invented pump that loses 1 % of its flow for each kPa below 66 kPa; the open suction stands at 95 kPa.
    const bench = new ObedientBench(guide, () => {
      const { target } = guide.state();
      const suctionPa = target?.suctionPressurePa ?? 9.5e4;
      const lost = Math.max(0, (6.6e4 - suctionPa) / 1e5);
      return { suctionPa, gaugePa: target?.deliveryGaugePressurePa ?? 0, flowM3PerS: 2e-4 * (1 - lost) };
    });
    for (let hold = 0; hold < 12 && !guide.state().isFinished; hold += 1) {
      const { target } = guide.state();
      deep.push(target?.suctionPressurePa);
      differences.push((target?.deliveryGaugePressurePa ?? 0) + BAROMETER_PA - (target?.suctionPressurePa ?? 9.5e4));
      const before = guide.state().stepsDone;
      while (guide.state().stepsDone === before) bench.runFor(0.5);
    }
    // 80, 73, 66, 59, 52 kPa: at 52 kPa 14 % are lost, and it goes no deeper.
    expect(deep).toEqual([null, 8e4, 7.3e4, 6.6e4, 5.9e4, 5.2e4]);
    for (const difference of differences) expect(difference).toBeCloseTo(1.05e5, 3);
    expect(bench.told.slice(-3)).toEqual(['openSuction', 'openValve', 'setSpeed']);
    expect(guide.state().sentence).toContain('6 holds are taken, down to 0.52 bar(a) at the inlet');
  });

  it('passes over inlet pressures that the open suction is already below', () => {
    const guide = guideFor('suction');
    const bench = new ObedientBench(guide, () => ({ suctionPa: 7.5e4, gaugePa: 1e5, flowM3PerS: 2e-4 }));
    bench.runFor(12);
    expect(guide.state().stepsDone).toBe(1);
    // 80 kPa lies above 75 kPa, and 73 kPa too near below it.
    expect(guide.state().target?.suctionPressurePa).toBe(6.6e4);
    expect(guide.state().sentence).toContain('Throttle the suction to 0.66 bar(a) at the inlet');
    expect(guide.state().sentence).toContain('set 0.91 bar(g) at the delivery');
  });

  it('gives up what the throttle cannot reach where it steps itself, and leaves it to a person otherwise', () => {
    const still = (): Moment => ({ suctionPa: 9.5e4, gaugePa: 1e5, flowM3PerS: 2e-4 });
    const itself = guideFor('suction', 45);
    new ObedientBench(itself, still).runFor(60);
    expect(itself.state()).toMatchObject({ isFinished: true, stepsDone: 1 });
    expect(itself.state().sentence).toContain('One hold is taken');
    const byHand = guideFor('suction');
    new ObedientBench(byHand, still).runFor(60);
    expect(byHand.state().isFinished).toBe(false);
  });
});

describe('the guide of a relief run', () => {
  it('closes the valve slowly, turns back where next to no flow is left, and ends where it began', () => {
    const guide = guideFor('relief');
    // Up by 0.1 bar a second from 10 s on, down again from 60 s on; no flow is left above 4.5 bar.
    const gaugeAt = (atS: number): number => 2e4 + 1e4 * Math.max(0, atS < 60 ? atS - 10 : 110 - atS);
    const bench = new ObedientBench(guide, (atS) => ({
      suctionPa: 9.5e4,
      gaugePa: gaugeAt(atS),
      flowM3PerS: gaugeAt(atS) > 4.5e5 ? 2e-6 : 2e-4,
    }));
    const phases: string[] = [];
    for (let second = 0; second < 130; second += 1) {
      bench.runFor(1);
      if (guide.state().sentence !== phases.at(-1)) phases.push(guide.state().sentence);
    }
    expect(phases.map((sentence) => sentence.slice(0, 22))).toEqual([
      'Valve fully open: set ',
      'Close the valve slowly',
      'Open the valve again a',
      'Up and down are record',
    ]);
    expect(bench.told).toEqual(['rampDeliveryPressure', 'rampDeliveryPressure', 'openValve', 'setSpeed']);
  });

  it('goes as high as the setting, the duty and the gauge allow', () => {
    const bench = inventedBench();
    const ceilingOf = (pump: PumpRecord): number => reliefCeilingPa({ pump, bench, barometerPa: BAROMETER_PA });
    // The sample's duty: 3 bar, twice that; a setting of 4 bar: 1.3 times; a gauge to 16 bar: three quarters.
    expect(ceilingOf(PUMP)).toBeCloseTo(6e5, 3);
    expect(ceilingOf({ ...PUMP, reliefValveSettingPa: 4e5 })).toBeCloseTo(5.2e5, 3);
    expect(ceilingOf({ ...PUMP, duty: null })).toBeCloseTo(12e5, 3);
  });

  it('turns back by itself where a hand gets no further, and not where a person turns the valve', () => {
    const still = (): Moment => ({ suctionPa: 9.5e4, gaugePa: 2e4, flowM3PerS: 2e-4 });
    const itself = guideFor('relief', 45);
    // Eighty seconds for the stroke and 45 of patience; the way back from where it began takes no time.
    new ObedientBench(itself, still).runFor(150);
    expect(itself.state().isFinished).toBe(true);
    const byHand = guideFor('relief');
    new ObedientBench(byHand, still).runFor(150);
    expect(byHand.state()).toMatchObject({ isFinished: false, stepsDone: 1 });
  });
});

it('runs at the highest speed of the duty, else at four fifths of the greatest', () => {
  // The sample: 900 r/min demanded, 1200 r/min the greatest.
  expect(oneSpeedRevPerS(PUMP)).toBe(15);
  expect(oneSpeedRevPerS({ ...PUMP, duty: null })).toBeCloseTo(16, 12);
});

it('reaches the second pressure of the first speed once more from above', () => {
  const point = (speedRevPerS: number, deliveryGaugePressurePa: number) => ({ speedRevPerS, deliveryGaugePressurePa });
  const plan = [point(15, 1), point(15, 2), point(15, 3), point(9, 3), point(15, 1)];
  expect(withReturnPoint(plan)).toEqual([...plan.slice(0, 3), point(15, 2), ...plan.slice(3)]);
  const short = [point(15, 1), point(15, 2), point(9, 2)];
  expect(withReturnPoint(short)).toEqual(short);
});
