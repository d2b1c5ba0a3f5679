import { expect, it } from 'vitest';
import { createPumpRelief } from '../../../rig/practiceBench/pumpRelief.ts';
import { expectWithin } from './expectWithin.ts';

/** Cracks at 4 bar, shuts at 3.5 bar, passes 2e-4 m³/s at 5 bar. */
const RELIEF = { crackingPa: 4e5, fullFlowOvershootPa: 1e5, reseatPa: 3.5e5 };
const FULL_FLOW_M3_PER_S = 2e-4;

function after(valve: ReturnType<typeof createPumpRelief>, gaugePa: number, seconds: number): number {
  let flowM3PerS = 0;
  for (let step = 0; step < seconds * 1000; step++) flowM3PerS = valve.advance(gaugePa, 1e-3);
  return flowM3PerS;
}

it('stays shut below cracking and passes the full flow at its overshoot', () => {
  const valve = createPumpRelief(RELIEF, FULL_FLOW_M3_PER_S);
  expect(after(valve, 3.99e5, 5)).toBe(0);
  expectWithin(after(valve, 5e5, 5), 2e-4, 1e-9);
});

it('opens along a straight line from where it reseats', () => {
  // 2e-4 · (4.3 − 3.5)/(5 − 3.5) = 1.0666667e-4 m³/s at 4.3 bar.
  const valve = createPumpRelief(RELIEF, FULL_FLOW_M3_PER_S);
  expectWithin(after(valve, 4.3e5, 5), 1.0666667e-4, 1e-7);
});

it('once open stays open below cracking, and shuts where it reseats', () => {
  const valve = createPumpRelief(RELIEF, FULL_FLOW_M3_PER_S);
  after(valve, 4.5e5, 5);
  // Between reseat and cracking, coming down: 2e-4 · (3.75 − 3.5)/1.5 = 3.333333e-5 m³/s.
  expectWithin(after(valve, 3.75e5, 5), 3.333333e-5, 1e-6);
  expect(after(valve, 3.4e5, 5)).toBe(0);
  expect(after(valve, 3.75e5, 5)).toBe(0);
});

it('does not follow a tooth ripple about a mean below cracking', () => {
  // 3.9 bar ± 0.4 bar at 180 Hz (15 rev/s, 12 teeth): a lag of 0.1 s leaves 0.4/(2π · 180 · 0.1) = 0.0035 bar of it.
  const valve = createPumpRelief(RELIEF, FULL_FLOW_M3_PER_S);
  after(valve, 3.9e5, 2);
  for (let step = 0; step < 5000; step++) {
    expect(valve.advance(3.9e5 + 0.4e5 * Math.sin(2 * Math.PI * 180 * step * 1e-3), 1e-3)).toBe(0);
  }
});

it('never opens where none is fitted', () => {
  expect(after(createPumpRelief(undefined, FULL_FLOW_M3_PER_S), 5e6, 1)).toBe(0);
});
