import { expect, it } from 'vitest';
import { readCommand } from '../../../rig/practiceBench/command.ts';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';

it('lets the gauge climb evenly to what was asked, and fall again', () => {
  const bench = createPracticeBench({ seed: 2, scenario: 'healthy' });
  const gaugeBar = (): number => (bench.state().deliveryPressurePa - PRACTICE_SET_UP.barometerPa) / 1e5;
  for (const command of ['flood', 'speed 900', 'valve 1']) bench.command(command);
  bench.step(8);
  const openBar = gaugeBar();
  bench.command('ramp 5 50');
  bench.step(25);
  // Halfway in time, halfway in pressure; the hand follows what it seeks by about a third of a second, 0.03 bar.
  expect(Math.abs(gaugeBar() - (openBar + 5) / 2)).toBeLessThan(0.1);
  bench.step(30);
  expect(Math.abs(gaugeBar() - 5)).toBeLessThan(0.05);
  bench.command('ramp 1 40');
  bench.step(20);
  expect(Math.abs(gaugeBar() - 3)).toBeLessThan(0.1);
});

it('turns the suction throttle until the inlet stands where it was asked', () => {
  const bench = createPracticeBench({ seed: 3, scenario: 'healthy' });
  for (const command of ['flood', 'speed 900', 'pressure 1', 'inlet 0.5']) bench.command(command);
  bench.step(20);
  // Content within 0.4 % of the drop of 0.5 bar, or 5 mbar.
  expect(Math.abs(bench.state().suctionPressurePa - 5e4)).toBeLessThan(1000);
  bench.command('suction 1');
  bench.step(5);
  expect(bench.state().suctionPressurePa).toBeGreaterThan(9e4);
});

it('refuses a ramp or an inlet pressure that is none', () => {
  for (const text of ['ramp', 'ramp 5', 'ramp 5 0', 'ramp 9 60', 'ramp 5 60 7', 'ramp five 60', 'inlet 0', 'inlet 2']) {
    expect(readCommand(text), text).toMatchObject({ understood: false });
  }
  expect(readCommand('ramp 5 60')).toEqual({ understood: true, command: { kind: 'ramp', gaugeBar: 5, overS: 60 } });
});
