import { describe, expect, it } from 'vitest';
import { createPracticeBench, type PracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import type { PracticePlant } from '../../../rig/practiceBench/plant.ts';
import { trueFlowM3PerS } from '../../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { expectWithin } from './expectWithin.ts';
import { stepUntil } from './stepUntil.ts';

const SEED = 5;

function benchWith(plant: PracticePlant, ...commands: readonly string[]): PracticeBench {
  const bench = createPracticeBench({ seed: SEED, scenario: 'healthy', plant });
  for (const command of ['flood', ...commands]) bench.command(command);
  return bench;
}

type Means = {
  readonly gaugePa: number;
  readonly inletPa: number;
  readonly inletM3PerS: number;
  readonly meterM3PerS: number;
};

/** Means over two seconds: whole teeth enough that the ripple is gone. */
function meansOf(bench: PracticeBench): Means {
  const sum = { gaugePa: 0, inletPa: 0, inletM3PerS: 0, meterM3PerS: 0 };
  const steps = 2000;
  for (let step = 0; step < steps; step++) {
    bench.step(1e-3);
    const state = bench.state();
    sum.gaugePa += (state.deliveryPressurePa - PRACTICE_SET_UP.barometerPa) / steps;
    sum.inletPa += state.suctionPressurePa / steps;
    sum.inletM3PerS += state.inletFlowM3PerS / steps;
    sum.meterM3PerS += state.meterFlowM3PerS / steps;
  }
  return sum;
}

/** What gears and gaps alone would draw in at these means. */
function soundM3PerS(bench: PracticeBench, { gaugePa, inletPa }: Means): number {
  const { speedRevPerS, oilTemperatureK } = bench.state();
  return trueFlowM3PerS(bench.truth().pump, createOil(PRACTICE_SET_UP), {
    speedRevPerS,
    differentialPressurePa: gaugePa + PRACTICE_SET_UP.barometerPa - inletPa,
    oilTemperatureK,
  });
}

function atPressure(bench: PracticeBench, gaugeBar: number): Means {
  bench.command(`pressure ${gaugeBar}`);
  stepUntil(bench, () => !bench.state().isHandTurning, 60);
  bench.step(3);
  return meansOf(bench);
}

describe('mass (seed 5)', () => {
  it('is kept between inlet, port and meter', () => {
    // ρ₁ q₁ = ρ_m q_m with ρ_m/ρ₁ = exp(−β (T_m − T₁) + (p_a − p₁)/K): some 0.15 K and 5 kPa, so 1e-4 at most.
    const bench = benchWith({}, 'speed 900');
    const means = atPressure(bench, 3);
    const { meterTemperatureK, oilTemperatureK } = bench.state();
    const ratio = Math.exp(
      -7.2e-4 * (meterTemperatureK - oilTemperatureK) + (PRACTICE_SET_UP.barometerPa - means.inletPa) / 1.62e9,
    );
    expectWithin(means.inletM3PerS, means.meterM3PerS * ratio, 5e-5);
  });
});

describe('a relief valve in the pump (seed 5)', () => {
  const relief = { crackingPa: 4e5, fullFlowOvershootPa: 1e5, reseatPa: 3.5e5 };

  it('takes its flow off above cracking, still does below it on the way down, and reseats', () => {
    // Full flow is that of 15 rev/s; straight from the reseat pressure: (p − 3.5 bar)/1.5 bar of 15 V_g.
    const bench = benchWith({ relief }, 'speed 900');
    const lost = (means: Means): number => soundM3PerS(bench, means) - means.inletM3PerS;
    const passes = (means: Means): number =>
      (15 * bench.truth().sweptVolumeM3PerRev * (means.gaugePa - relief.reseatPa)) / 1.5e5;
    const below = atPressure(bench, 3.8);
    expect(Math.abs(lost(below))).toBeLessThan(2e-4 * below.inletM3PerS);
    const above = atPressure(bench, 4.4);
    expectWithin(lost(above), passes(above), 2e-3);
    const downwards = atPressure(bench, 3.8);
    expectWithin(lost(downwards), passes(downwards), 3e-3);
    const shut = atPressure(bench, 3.3);
    expect(Math.abs(lost(shut))).toBeLessThan(2e-4 * shut.inletM3PerS);
  });

  it('that does not seat leaks like an orifice', () => {
    // Cd A 4e-7 m² besides: 4e-7 · √(2Δp/ρ).
    const bench = benchWith({ reliefNotSeatingM2: 4e-7 }, 'speed 900');
    const means = atPressure(bench, 2);
    const { densityKgPerM3 } = createOil(PRACTICE_SET_UP)(bench.state().oilTemperatureK);
    const differencePa = means.gaugePa + PRACTICE_SET_UP.barometerPa - means.inletPa;
    const orificeM3PerS = 4e-7 * Math.sqrt((2 * differencePa) / densityKgPerM3);
    expectWithin(soundM3PerS(bench, means) - means.inletM3PerS, orificeM3PerS, 1e-2);
  });
});

describe('a throttled suction (seed 5)', () => {
  it('costs pressure with the square of the flow and no oil above 0.6 bar', () => {
    // Throttle of 3e-4 m² fully open: Δp = ρ/2 (q/3e-4)² (1/f² − 1) on top of the open pipe.
    const bench = benchWith({}, 'speed 900');
    const open = atPressure(bench, 0.5);
    bench.command('suction 0.078');
    bench.step(5);
    const throttled = meansOf(bench);
    const { densityKgPerM3 } = createOil(PRACTICE_SET_UP)(bench.state().oilTemperatureK);
    const lossPa = (densityKgPerM3 / 2) * (throttled.inletM3PerS / 3e-4) ** 2 * (1 / 0.078 ** 2 - 1);
    expectWithin(open.inletPa - throttled.inletPa, lossPa, 5e-3);
    expect(throttled.inletPa).toBeGreaterThan(6e4);
    expectWithin(throttled.inletM3PerS, soundM3PerS(bench, throttled), 3e-4);
  });

  it('costs oil below 0.6 bar, by the air that comes out of it', () => {
    const bench = benchWith({}, 'speed 900');
    atPressure(bench, 0.5);
    bench.command('suction 0.05');
    bench.step(5);
    const means = meansOf(bench);
    expect(means.inletPa).toBeLessThan(5e4);
    // Henry and Boyle: 9 % by volume, (60 kPa − p)/p of it free at p.
    const ratio = (0.09 * (6e4 - means.inletPa)) / means.inletPa;
    const { derivedCapacityM3PerRev } = bench.truth();
    const lostM3PerS = (derivedCapacityM3PerRev * bench.state().speedRevPerS * ratio) / (1 + ratio);
    expectWithin(soundM3PerS(bench, means) - means.inletM3PerS, lostM3PerS, 1e-2);
  });

  it('draws nothing at all when it is blanked, and comes back when it is opened', () => {
    const bench = benchWith({}, 'speed 900');
    const before = atPressure(bench, 0.5);
    bench.command('blank 1');
    bench.step(5);
    expect(bench.state().suctionPressurePa).toBeLessThan(1e3);
    expect(bench.state().meterFlowM3PerS).toBeLessThan(0.01 * before.meterM3PerS);
    bench.command('blank 0');
    bench.step(5);
    expectWithin(meansOf(bench).meterM3PerS, before.meterM3PerS, 5e-3);
  });
});

describe('planted in pump and oil (seed 5)', () => {
  it('a pump that no longer fills falls behind beyond its knee alone', () => {
    // Beyond the knee 0.6 of what is beyond it stays empty: 1 − 0.6 (1 − 15/25) = 0.76 at 25 rev/s.
    const below = benchWith({ fillingKneeRevPerS: 15 }, 'speed 840');
    const belowMeans = atPressure(below, 0.5);
    expectWithin(belowMeans.inletM3PerS, soundM3PerS(below, belowMeans), 3e-4);
    const beyond = benchWith({ fillingKneeRevPerS: 15 }, 'speed 1500');
    const means = atPressure(beyond, 0.5);
    const lostM3PerS = 0.24 * beyond.truth().derivedCapacityM3PerRev * beyond.state().speedRevPerS;
    expectWithin(soundM3PerS(beyond, means) - means.inletM3PerS, lostM3PerS, 5e-3);
  });

  it('two per cent of free air cost a little over two per cent of the displacement, less after a rest', () => {
    // At the inlet's 0.96 bar 2 % of air are 0.02/0.98 · 1.01325/0.96 = 2.15 % of the oil, 2.11 % of what is swept.
    const bench = benchWith({ freeAirShare: 0.02 }, 'speed 900');
    bench.step(300);
    const means = atPressure(bench, 0.5);
    const ratio = ((0.02 / 0.98) * PRACTICE_SET_UP.barometerPa) / means.inletPa;
    const sweptM3PerS = bench.truth().derivedCapacityM3PerRev * bench.state().speedRevPerS;
    const lostShare = (means_: Means): number => (soundM3PerS(bench, means_) - means_.inletM3PerS) / sweptM3PerS;
    expectWithin(lostShare(means), ratio / (1 + ratio), 1e-2);
    bench.command('speed 0');
    bench.step(300);
    bench.command('speed 900');
    bench.step(3);
    expect(lostShare(meansOf(bench))).toBeLessThan(0.3 * lostShare(means));
  });

  it('a motor that turns the wrong way delivers nothing while the speed channel sees nothing wrong', () => {
    const bench = benchWith({ isReversed: true }, 'speed 900');
    bench.step(10);
    expect(bench.state()).toMatchObject({ meterFlowM3PerS: 0 });
    expectWithin(bench.state().speedRevPerS, 15, 1e-3);
  });

  it('a shaft that drives nothing turns against its seals alone', () => {
    // Seals and bearings: 0.08 N m.
    const bench = benchWith({ isShaftNotDriven: true }, 'speed 900');
    bench.step(10);
    expect(bench.state()).toMatchObject({ meterFlowM3PerS: 0 });
    expectWithin(bench.state().torqueNM, 0.08, 1e-9);
  });

  it('exchanged tubes show each pressure on the other instrument', () => {
    const bench = benchWith({ swappedPressurePorts: true }, 'speed 900', 'pressure 0.5');
    const lines = bench.step(20).filter((line) => line.startsWith('$'));
    const [, , suctionBarA, deliveryBarG] = (lines.at(-1) ?? '').slice(1).split(',').map(Number);
    const { deliveryPressurePa, suctionPressurePa } = bench.state();
    // Within four stated uncertainties, noise and the tooth ripple of 0.05 bar.
    expect(Math.abs((suctionBarA ?? Number.NaN) - deliveryPressurePa / 1e5)).toBeLessThan(0.06);
    expect(Math.abs((deliveryBarG ?? Number.NaN) - (suctionPressurePa - 101_325) / 1e5)).toBeLessThan(0.06);
  });
});
