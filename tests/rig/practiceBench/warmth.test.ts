import { expect, it } from 'vitest';
import { densityRatio } from '../../../rig/practiceBench/oil.ts';
import { shaftTorqueNM } from '../../../rig/practiceBench/shaftTorque.ts';
import { createWarmth, warmedBy } from '../../../rig/practiceBench/warmth.ts';
import { expectWithin } from './expectWithin.ts';

const FLOW = { shaftW: 90, massFlowKgPerS: 0.18, densityKgPerM3: 857, differentialPressurePa: 3e5 };

it('warms the oil by all of the shaft power behind the throttle, and by less at the outlet', () => {
  // Throttled: 90/(0.18 · 1950) = 0.2564103 K. Pressure part at the outlet: (1 − 7.2e-4 · 318.15) · 3e5/(857 · 1950) =
  // 0.1383955 K, so 0.1180148 K there.
  const { outletK, throttledK } = warmedBy(FLOW, 318.15);
  expectWithin(throttledK - 318.15, 0.2564103, 1e-6);
  expectWithin(outletK - 318.15, 0.1180148, 1e-6);
});

it('warms at the outlet of a pump without losses by the isentropic compression alone', () => {
  // Then the shaft power is Δp q, and dT = β T dp/(ρ c) (thermodynamics): 0.229068 · 3e5/(857 · 1950) = 0.04112162 K.
  const lossless = { ...FLOW, shaftW: (3e5 * 0.18) / 857 };
  expectWithin(warmedBy(lossless, 318.15).outletK - 318.15, 0.04112162, 1e-5);
});

it('leaves the temperatures alone where nothing flows', () => {
  expect(warmedBy(null, 318.15)).toEqual({ outletK: 318.15, throttledK: 318.15 });
});

it('a tank at rest cools towards the workshop', () => {
  // 18 kJ/K over 2 W/K are 9000 s: after 900 s 293.15 + 25 · exp(−0.1) = 315.770935 K.
  const warmth = createWarmth(318.15);
  for (let step = 0; step < 9000; step++) warmth.advance(null, 0.1);
  expectWithin(warmth.tankK(), 315.770935, 1e-7);
});

it('the meter stands behind throttle and line, the casing between oil and workshop', () => {
  // Behind the throttle 318.4064103 K; the line loses 1.5 · 25.2564103/(0.18 · 1950) = 0.1079334 K. Casing: 0.12 of the way
  // from 318.2680148 K to 293.15 K. The tank warms by 40 W/18 kJ/K in the 20 s: 0.04 K.
  const warmth = createWarmth(318.15);
  for (let step = 0; step < 200; step++) warmth.advance(FLOW, 0.1);
  expect(Math.abs(warmth.meterK() - warmth.tankK() - (0.2564103 - 0.1079334))).toBeLessThan(0.01);
  for (let step = 0; step < 12_000; step++) {
    warmth.advance(FLOW, 0.1);
    warmth.setTank(318.15);
  }
  expect(Math.abs(warmth.caseK() - (318.2680148 - 0.12 * 25.1180148))).toBeLessThan(0.01);
});

it('gives oil the density that warmth and pressure make of it', () => {
  // 10 K warmer and 10 bar higher, K at 323.15 K: 1.62e9 − 6e6 · 5 = 1.59e9 Pa; exp(−0.0072 + 1e6/1.59e9) = 0.9934505.
  const from = { temperatureK: 318.15, pressurePa: 1e5 };
  const to = { temperatureK: 328.15, pressurePa: 11e5 };
  expectWithin(densityRatio(from, to), 0.9934505, 1e-7);
  expectWithin(densityRatio(from, to) * densityRatio(to, from), 1, 1e-12);
});

it('takes the torque of displacement, shear and friction, and none at rest', () => {
  // Ideal 14e-6 · 3e5/(2π) = 0.6684508; 7 % of it 0.0467916; shear 0.22 · 0.045 · 15 = 0.1485; seals 0.08: 0.9437423 N m.
  const at = { displacementM3PerRev: 14e-6, differentialPressurePa: 3e5, dynamicViscosityPaS: 0.045, speedRevPerS: 15 };
  expectWithin(shaftTorqueNM(at), 0.9437423, 1e-6);
  expect(shaftTorqueNM({ ...at, speedRevPerS: 0 })).toBe(0);
});
