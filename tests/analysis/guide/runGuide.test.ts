import { describe, expect, it } from 'vitest';
import { deliveryPlan, withinFlowMeter } from '../../../analysis/guide/deliveryGuide.ts';
import type { RunGuide } from '../../../analysis/guide/guideSetting.ts';
import { ReadingWindow } from '../../../analysis/guide/readingWindow.ts';
import { createRunGuide } from '../../../analysis/guide/runGuide.ts';
import { QUALITY } from '../../../analysis/readings.ts';
import type { RunKind } from '../../../analysis/records/runRecord.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { sampleBench, samplePump } from '../../support/samples.ts';

const BAROMETER_PA = 101325;

function guideFor(kind: RunKind, patienceS: number | null = null): RunGuide {
  return createRunGuide({
    kind,
    pump: samplePump('dredger-feed-pump'),
    bench: inventedBench(),
    barometerPa: BAROMETER_PA,
    sweptVolumeM3PerRev: 13.88e-6,
    deliveryLineVolume: { value: 0, standardUncertainty: 0 },
    wetness: 'W1',
    patienceS,
  });
}

/** Still readings at 20 a second from one time to another, looked at twice a second. */
function watch(
  guide: RunGuide,
  window: ReadingWindow,
  fromS: number,
  toS: number,
  speedRevPerS: number,
  gaugePa: number,
  flowM3PerS: number,
) {
  const { good } = QUALITY;
  const actions: string[] = [];
  for (let step = Math.round(fromS * 20); step < Math.round(toS * 20); step += 1) {
    window.push({
      atS: step / 20,
      values: {
        speed: speedRevPerS,
        deliveryPressure: BAROMETER_PA + gaugePa,
        suctionPressure: 97000,
        flow: flowM3PerS,
        oilTemperature: 318,
      },
      quality: { speed: good, deliveryPressure: good, suctionPressure: good, flow: good, oilTemperature: good },
    });
    if (step % 10 === 0) actions.push(...guide.look(window).map(({ kind }) => kind));
  }
  return actions;
}

describe('the plan of a delivery run', () => {
  it('encloses the duty, stays in the speed range and repeats its first point last', () => {
    const pump = samplePump('dredger-feed-pump');
    const plan = deliveryPlan(pump);
    // The sample's duty: 900 r/min, 3 bar; range 300 to 1200 r/min.
    const speeds = plan.map(({ speedRevPerS }) => speedRevPerS);
    const pressures = plan.map(({ deliveryGaugePressurePa }) => deliveryGaugePressurePa);
    expect(Math.min(...speeds)).toBeLessThan(15);
    expect(Math.max(...speeds)).toBeGreaterThan(15);
    expect(Math.max(...speeds)).toBeLessThanOrEqual(pump.speedRangeRevPerS.max);
    expect(Math.min(...pressures)).toBeLessThan(3e5);
    expect(Math.max(...pressures)).toBeGreaterThan(3e5);
    expect(plan.at(-1)).toEqual(plan[0]);
  });

  it('asks for no speed at which the pump would bring more than the flow meter shows', () => {
    // Two screws of 40 cm³ a turn on a meter up to 40 l/min, 6.667e-4 m³/s: 95 % of that at 15.83 rev/s.
    const plan = deliveryPlan(samplePump('dredger-return-pump'));
    expect(Math.max(...plan.map(({ speedRevPerS }) => speedRevPerS))).toBeCloseTo(18.75, 6);
    const within = withinFlowMeter(plan, sampleBench(), 40e-6);
    expect(Math.max(...within.map(({ speedRevPerS }) => speedRevPerS))).toBeCloseTo(15.8333, 3);
    expect(within.map(({ deliveryGaugePressurePa }) => deliveryGaugePressurePa)).toEqual(
      plan.map(({ deliveryGaugePressurePa }) => deliveryGaugePressurePa),
    );
    expect(within.filter(({ speedRevPerS }) => speedRevPerS < 15.8)).toEqual(
      plan.filter(({ speedRevPerS }) => speedRevPerS < 15.8),
    );
  });
});

describe('the guide of a delivery run', () => {
  it('takes a point once it was held at the set point, and goes on to the next', () => {
    const guide = guideFor('delivery');
    const first = guide.state().target;
    expect(guide.begin().map(({ kind }) => kind)).toEqual([
      'openSuctionAtPump',
      'flood',
      'openValve',
      'setSpeed',
      'setDeliveryPressure',
    ]);
    const actions = watch(
      guide,
      new ReadingWindow(60),
      0,
      9,
      first?.speedRevPerS ?? 0,
      first?.deliveryGaugePressurePa ?? 0,
      2e-4,
    );
    expect(guide.state().stepsDone).toBe(1);
    expect(actions).toEqual(['setSpeed', 'setDeliveryPressure']);
    expect(guide.state().stillness.speed).toBe('steady');
  });

  it('does not take a point at another pressure, and says what to set', () => {
    const guide = guideFor('delivery');
    watch(guide, new ReadingWindow(60), 0, 20, 15, 5e5, 2e-4);
    expect(guide.state().stepsDone).toBe(0);
    expect(guide.state().sentence).toContain('Set 900 r/min and 0.60 bar(g)');
  });
});

describe('a set point out of reach', () => {
  it('is given up by a run that steps itself and left to the person otherwise', () => {
    const itself = guideFor('delivery', 45);
    expect(watch(itself, new ReadingWindow(60), 0, 47, 15, 5e5, 2e-4)).toEqual(['setSpeed', 'setDeliveryPressure']);
    const byHand = guideFor('delivery');
    expect(watch(byHand, new ReadingWindow(60), 0, 100, 15, 5e5, 2e-4)).toEqual([]);
  });
});

describe('the guide of a dry start', () => {
  it('starts the motor after a rest, watches, and stops it when oil has come to stay', () => {
    const guide = guideFor('dryLift');
    const window = new ReadingWindow(60);
    expect(watch(guide, window, 0, 3, 0, 0, 0)).toEqual(['setSpeed']);
    expect(watch(guide, window, 3, 5, 10, 0, 0)).toEqual([]);
    expect(guide.state().sentence).toContain('Watching for oil');
    expect(watch(guide, window, 5, 8, 10, 0, 1.3e-4)).toEqual(['setSpeed']);
    expect(guide.state().isFinished).toBe(true);
    expect(guide.state().sentence).toContain('Oil has arrived');
  });

  it('stops a dry pump after thirty seconds without oil', () => {
    const guide = guideFor('dryLift');
    const window = new ReadingWindow(60);
    watch(guide, window, 0, 3, 0, 0, 0);
    const actions = watch(guide, window, 3, 34, 10, 0, 0);
    expect(actions).toEqual(['setSpeed']);
    expect(guide.state().sentence).toContain('No oil after 30 s: stop the motor now');
  });
});
