import { describe, expect, it } from 'vitest';
import { createBenchWatch } from '../../../analysis/guide/benchWatch.ts';
import { QUALITY } from '../../../analysis/readings.ts';
import type { RunKind } from '../../../analysis/records/runRecord.ts';
import { PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { sampleBench, samplePump } from '../../support/samples.ts';

const BAROMETER_PA = 101_325;

function watchOf(kind: RunKind, reliefValveSettingPa: number | null = 4e5) {
  return createBenchWatch({
    kind,
    pump: { ...samplePump('dredger-feed-pump'), reliefValveSettingPa },
    bench: sampleBench(),
    setUp: { ...PRACTICE_RUN_SET_UP, barometerPa: { value: BAROMETER_PA, standardUncertainty: 50 } },
  });
}

function row(atS: number, values: Readonly<Record<string, number>>, quality: number = QUALITY.good) {
  return { atS, values, quality: Object.fromEntries(Object.keys(values).map((name) => [name, quality])) };
}

describe('the watch over a run', () => {
  it('warns when the gauge climbs a tenth over the relief valve, keeps the highest, and stays listed once it is back', () => {
    const watch = watchOf('delivery');
    // 4 bar set, 4.4 bar a tenth over it
    for (const [atS, bar] of [
      [10, 4.3],
      [11, 4.5],
      [12, 4.9],
      [13, 4.6],
    ] as const) {
      watch.look(row(atS, { deliveryPressure: BAROMETER_PA + bar * 1e5 }));
    }
    expect(watch.warnings()).toMatchObject([{ limit: { id: 'relief' }, firstS: 3, isNow: true }]);
    watch.look(row(14, { deliveryPressure: BAROMETER_PA + 4.95e5 }));
    watch.look(row(15, { deliveryPressure: BAROMETER_PA + 2e5 }));
    expect(watch.warnings()).toHaveLength(1);
    expect(watch.warnings()[0]).toMatchObject({ isNow: false, farthest: BAROMETER_PA + 4.95e5 });
  });

  it('warns of nothing after one wild reading or a missing one', () => {
    const watch = watchOf('delivery');
    watch.look(row(1, { speed: 15 }));
    watch.look(row(2, { speed: 90 }));
    watch.look(row(3, { speed: Number.NaN }, QUALITY.missing));
    watch.look(row(4, { speed: 15 }));
    expect(watch.warnings()).toEqual([]);
  });

  it('counts a reading beyond the range of its instrument: it is the one that matters', () => {
    const watch = watchOf('delivery', null);
    const range = sampleBench().channels.find(({ channel }) => channel === 'deliveryPressure')?.range.max ?? Number.NaN;
    for (const atS of [1, 2, 3]) {
      watch.look(row(atS, { deliveryPressure: BAROMETER_PA + (range + 1) * 1e5 }, QUALITY.outOfRange));
    }
    expect(watch.warnings()).toMatchObject([{ limit: { id: 'range.deliveryPressure' } }]);
  });

  it('lets the pressure climb through the relief valve where that is the test', () => {
    const limits = watchOf('relief').limits();
    expect(limits.some(({ id }) => id === 'relief')).toBe(false);
  });

  it('ends a dry run in words once the case is 10 K warmer than at its start', () => {
    const watch = watchOf('dryLift');
    watch.look(row(0, { caseTemperature: 293 }));
    for (const atS of [1, 2, 3]) watch.look(row(atS, { caseTemperature: 303.5 }));
    expect(watch.warnings()).toMatchObject([{ limit: { id: 'dryCase', atMost: 303 } }]);
    expect(
      watchOf('delivery')
        .limits()
        .some(({ id }) => id === 'dryCase'),
    ).toBe(false);
  });
});
