import { expect, it } from 'vitest';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { practiceTruth } from '../../../rig/practiceBench/practiceTruth.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { stepUntil } from './stepUntil.ts';

const SEEDS = [1, 20, 333];

it.each(SEEDS)('a healthy pump draws oil from dry in 2 to 4.2 s at 600 r/min (seed %i)', (seed) => {
  // Volume over displacement: (0.8 · 490.9 + 60 cm³)/(13.9 · 10 cm³/s) = 3.3 s, and the motor's 0.4 s.
  const bench = createPracticeBench({ seed, scenario: 'healthy' });
  bench.command('speed 600');
  bench.step(10);
  const { primingTimeS } = bench.truth().priming;
  expect(primingTimeS).toBeGreaterThan(2);
  expect(primingTimeS).toBeLessThan(4.2);
});

it.each(SEEDS)('a worn pump takes longer, an unprimable one never draws oil in a minute (seed %i)', (seed) => {
  const [healthy, worn, unprimable] = (['healthy', 'worn', 'unprimable'] as const).map((scenario) => {
    const bench = createPracticeBench({ seed, scenario });
    bench.command('speed 600');
    bench.step(60);
    return bench;
  });
  const healthyS = healthy?.truth().priming.primingTimeS ?? Number.NaN;
  expect(worn?.truth().priming.primingTimeS).toBeGreaterThan(healthyS + 0.5);
  expect(unprimable?.truth().priming).toMatchObject({ primedAtS: null, primingTimeS: null });
  expect(unprimable?.state().columnM).toBeGreaterThan(0.05);
  expect(unprimable?.state().columnM).toBeLessThan(PRACTICE_SET_UP.staticLiftM);
  expect(unprimable?.state().meterFlowM3PerS).toBe(0);
});

it.each(SEEDS)('an unprimable pump does not draw oil at its highest speed either (seed %i)', (seed) => {
  const bench = createPracticeBench({ seed, scenario: 'unprimable' });
  bench.command('speed 1800');
  bench.step(60);
  expect(bench.truth().priming.primingTimeS).toBeNull();
});

it('the suction pressure falls with the column and flow comes at the end', () => {
  const bench = createPracticeBench({ seed: 8, scenario: 'healthy' });
  bench.command('speed 600');
  stepUntil(bench, () => bench.state().columnM > 0.4, 10);
  const { columnM, suctionPressurePa, meterFlowM3PerS } = bench.state();
  // At least the weight of the column, ρ g x, is missing; friction and acceleration take less than 500 Pa more.
  const missingPa = PRACTICE_SET_UP.barometerPa - suctionPressurePa;
  expect(missingPa).toBeGreaterThan(850 * 9.80665 * columnM);
  expect(missingPa).toBeLessThan(860 * 9.80665 * columnM + 500);
  expect(meterFlowM3PerS).toBe(0);
});

it('a column that did not arrive falls back at rest', () => {
  const bench = createPracticeBench({ seed: 8, scenario: 'worn' });
  bench.command('speed 600');
  bench.step(2);
  expect(bench.state().columnM).toBeGreaterThan(0.2);
  bench.command('speed 0');
  bench.step(30);
  expect(bench.state().columnM).toBeLessThan(0.01);
});

it('a flooded pump stays flooded at rest and delivers at once, until it is dried', () => {
  const bench = createPracticeBench({ seed: 8, scenario: 'healthy' });
  bench.command('flood');
  bench.step(120);
  bench.command('speed 600');
  bench.step(5);
  expect(bench.truth().priming.primingTimeS).toBeLessThan(0.05);
  bench.command('dry');
  expect(bench.step(1).length).toBeGreaterThan(0);
  expect(bench.state()).toMatchObject({ speedRevPerS: 0, columnM: 0, meterFlowM3PerS: 0, isLineFull: false });
  bench.command('speed 600');
  bench.step(10);
  const { motorStartS, primingTimeS } = bench.truth().priming;
  expect(primingTimeS).toBeGreaterThan(2);
  // The clock stood at 126 s when the motor was told to turn.
  expect(motorStartS).toBeCloseTo(126, 2);
});

it('its truth is plain JSON', () => {
  const truth = createPracticeBench({ seed: 8, scenario: 'worn' }).truth();
  expect(practiceTruth.parse(JSON.parse(JSON.stringify(truth)))).toEqual(truth);
});
