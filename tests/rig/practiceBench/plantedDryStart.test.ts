import { describe, expect, it } from 'vitest';
import { createPracticeBench, type PracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { dryBalance } from '../../../rig/practiceBench/dryLiftLimit.ts';
import { gasLeakPaM3PerS, holeLeakPaM3PerS } from '../../../rig/practiceBench/gasLeak.ts';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import type { PracticePlant } from '../../../rig/practiceBench/plant.ts';
import type { PracticeScenario } from '../../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { pipeHeightM, type SuctionPipe } from '../../../rig/practiceBench/suctionColumn.ts';
import { expectWithin } from './expectWithin.ts';

const { barometerPa: ATMOSPHERE_PA } = PRACTICE_SET_UP;
const SEED = 6;

function dryBench(plant: PracticePlant, scenario: PracticeScenario, ...commands: readonly string[]): PracticeBench {
  const bench = createPracticeBench({ seed: SEED, scenario, plant });
  for (const command of ['dry', 'valve 1', ...commands]) bench.command(command);
  return bench;
}

describe('gas', () => {
  it('leaks through a gap with the difference of the squares, forwards as backwards', () => {
    // 1e-9 · (101 325² − 50 000²) = 7.766755625 Pa m³/s.
    const gap = { constantM3PerSPerPa: 1e-9, entryShare: 0 };
    expectWithin(gasLeakPaM3PerS(gap, 101_325, 50_000), 7.766755625, 1e-9);
    expectWithin(gasLeakPaM3PerS(gap, 50_000, 101_325), -7.766755625, 1e-9);
  });

  it('is hindered by the entry of a gap as its share says', () => {
    // p_d² − p² = x + e x²/1e9 Pa² with x = G/C: x + 1e-10 x² = 7.766755625e9 Pa², so that
    // x = (√(1 + 4e-10 · 7.766755625e9) − 1)/2e-10 = (2.0265 − 1)/2e-10 = 5.1325e9 Pa².
    const gap = { constantM3PerSPerPa: 1e-9, entryShare: 0.1 };
    expectWithin(gasLeakPaM3PerS(gap, 101_325, 50_000), 5.1325, 1e-9);
  });

  it('comes through a hole by the root of the pressure difference, never backwards', () => {
    // 1e-6 · 101 325 · √(2/1.2) · √20 000 = 18.49932938 Pa m³/s.
    expectWithin(holeLeakPaM3PerS(1e-6, 101_325, 81_325), 18.49932938, 1e-8);
    expect(holeLeakPaM3PerS(1e-6, 81_325, 101_325)).toBe(0);
  });
});

describe('a blanked dry pump (seed 6)', () => {
  it.each(['healthy', 'worn'] as const)(
    'comes to rest where as much gas comes back as is taken, at two speeds, and the truth says so (%s)',
    (scenario) => {
      for (const speedRPerMin of [600, 1200]) {
        const bench = dryBench({}, scenario, 'blank 1', `speed ${speedRPerMin}`);
        bench.step(120);
        const { suctionPressurePa } = bench.state();
        const truth = bench.truth();
        expectWithin(suctionPressurePa, truth.dryLift.blankOffPressurePa, 1e-4);
        // By hand: p Q = κ Q p_a + G with G/C + 0.1 (G/C)²/1e9 = p_a² − p².
        const intakeM3PerS = (truth.derivedCapacityM3PerRev * speedRPerMin) / 60;
        const squares =
          (suctionPressurePa - truth.pump.carryOverShare * ATMOSPHERE_PA) *
          (intakeM3PerS / truth.pump.gasGapM3PerSPerPa);
        expectWithin(squares + 1e-10 * squares ** 2, ATMOSPHERE_PA ** 2 - suctionPressurePa ** 2, 1e-3);
      }
    },
  );

  it('does not see a hole in the pipe, and sees a shaft end that draws air', () => {
    const pressureWith = (plant: PracticePlant): number => {
      const bench = dryBench(plant, 'healthy', 'blank 1', 'speed 600');
      bench.step(60);
      return bench.state().suctionPressurePa;
    };
    const plainPa = pressureWith({});
    expect(pressureWith({ pipeLeakM2: 1e-7 })).toBe(plainPa);
    expect(pressureWith({ shaftLeakM3PerSPerPa: 1e-9 })).toBeGreaterThan(1.5 * plainPa);
  });

  it('rests higher by what the mesh carries over, the same at every speed', () => {
    // Without leakage p = κ p_a: 0.05 · 101 325 = 5066 Pa, whatever the speed; the gaps add to it, the less the faster.
    const at = { temperatureK: 318.15, atmospherePa: ATMOSPHERE_PA, oil: createOil(PRACTICE_SET_UP)(318.15) };
    const pump = { ...dryBench({}, 'healthy').truth().pump, gasGapM3PerSPerPa: 1e-20 };
    for (const speedRevPerS of [5, 20]) {
      const { pressurePa } = dryBalance(pump, { carryOverShare: 0.05 }, { ...at, speedRevPerS, isBlanked: true });
      expectWithin(pressurePa, 5066.25, 1e-6);
    }
  });
});

describe('the dry lift limit (seed 6)', () => {
  it('is the column that stands under the balance pressure, and an unprimable pump stops there', () => {
    const bench = dryBench({}, 'unprimable', 'speed 600');
    bench.step(120);
    const { columnM, suctionPressurePa, oilTemperatureK } = bench.state();
    const { limitM, balancePressurePa } = bench.truth().dryLift;
    const { densityKgPerM3 } = createOil(PRACTICE_SET_UP)(oilTemperatureK);
    // Below the lift the column stands straight up: ρ g x = p_a − p.
    expectWithin(suctionPressurePa, balancePressurePa, 1e-4);
    expectWithin(columnM, limitM, 1e-2);
    expectWithin(densityKgPerM3 * 9.80665 * columnM, ATMOSPHERE_PA - suctionPressurePa, 1e-3);
  });

  it('is none for a pump that turns backwards or whose shaft drives nothing', () => {
    for (const plant of [{ isReversed: true }, { isShaftNotDriven: true }]) {
      const bench = dryBench(plant, 'healthy', 'speed 600');
      bench.step(30);
      expect(bench.truth().priming.primedAtS).toBeNull();
      expect(bench.truth().dryLift.limitM).toBeCloseTo(0, 9);
      expect(bench.state().suctionPressurePa).toBeGreaterThanOrEqual(ATMOSPHERE_PA - 1);
    }
  });
});

describe('planted on the suction side (seed 6)', () => {
  it('a swan neck carries the height of its highest point, not of its end', () => {
    // 0.4 m up, 0.3 m level, 0.2 m down: 0.4 m at 0.55 m along, 0.3 m at 0.8 m (half of the fall).
    const pipe: SuctionPipe = {
      staticLiftM: 0.2,
      boreM: 0.025,
      lengthM: 0.9,
      legs: [
        { lengthM: 0.4, riseM: 0.4 },
        { lengthM: 0.3, riseM: 0 },
        { lengthM: 0.2, riseM: -0.2 },
      ],
      submergedLengthM: 0.15,
      deadVolumeM3: 60e-6,
      polytropicExponent: 1.2,
      inertiaShare: 1,
    };
    for (const [alongM, heightM] of [
      [0.2, 0.2],
      [0.55, 0.4],
      [0.8, 0.3],
      [0.9, 0.2],
    ] as const) {
      expectWithin(pipeHeightM(pipe, alongM), heightM, 1e-12);
    }
  });

  it('a foot valve holds the column when the pump stops, without one it falls', () => {
    for (const hasFootValve of [true, false]) {
      const bench = dryBench({ hasFootValve }, 'worn', 'speed 600');
      bench.step(2);
      const { columnM } = bench.state();
      expect(columnM).toBeGreaterThan(0.2);
      bench.command('speed 0');
      bench.step(30);
      if (hasFootValve) expect(bench.state().columnM).toBeGreaterThanOrEqual(columnM);
      else expect(bench.state().columnM).toBeLessThan(0.01);
    }
  });

  it('a pipe that is held keeps its vacuum unless it has a hole', () => {
    // Through 1e-7 m² at 4 kPa come 0.8 Pa m³/s; until the column has sunk 0.3 m · 490.9 mm² · 1e5 Pa = 15 Pa m³ must.
    for (const pipeLeakM2 of [undefined, 1e-7]) {
      const bench = dryBench(pipeLeakM2 === undefined ? {} : { pipeLeakM2 }, 'healthy', 'speed 600');
      bench.step(2.5);
      bench.command('hold 1');
      bench.command('speed 0');
      // The column swings on its gas for some seconds.
      bench.step(pipeLeakM2 === undefined ? 15 : 2);
      const vacuumPa = ATMOSPHERE_PA - bench.state().suctionPressurePa;
      expect(vacuumPa).toBeGreaterThan(1000);
      bench.step(60);
      const laterPa = ATMOSPHERE_PA - bench.state().suctionPressurePa;
      if (pipeLeakM2 === undefined) expectWithin(laterPa, vacuumPa, 1e-3);
      else expect(laterPa).toBeLessThan(0.5 * vacuumPa);
    }
  });

  it('a blocked pipe draws down to the blank-off pressure and brings no oil', () => {
    const bench = dryBench({ isPipeBlocked: true }, 'healthy', 'speed 600');
    bench.step(120);
    expect(bench.state()).toMatchObject({ columnM: 0, meterFlowM3PerS: 0 });
    expectWithin(bench.state().suctionPressurePa, bench.truth().dryLift.blankOffPressurePa, 1e-3);
  });

  it('an unvented delivery side is pumped up and keeps the pump from its vacuum', () => {
    const bench = dryBench({ unventedDeliveryM3: 2e-4 }, 'healthy', 'speed 600');
    const vented = dryBench({}, 'healthy', 'speed 600');
    for (const each of [bench, vented]) each.step(2);
    expect(bench.state().deliveryPressurePa).toBeGreaterThan(1.5e5);
    expect(bench.state().columnM).toBeLessThan(vented.state().columnM);
  });

  it('a relief valve that does not seat lets the gas back and lengthens the start', () => {
    const times = [{}, { reliefNotSeatingM2: 3e-7 }].map((plant) => {
      const bench = dryBench(plant, 'healthy', 'speed 600');
      bench.step(30);
      return bench.truth().priming.primingTimeS ?? Number.POSITIVE_INFINITY;
    });
    expect(times[1]).toBeGreaterThan((times[0] ?? Number.NaN) + 0.3);
  });

  it('films that still form let more gas back at first', () => {
    const pressures = [undefined, { startFactor: 6, timeConstantS: 10 }].map((films) => {
      const bench = dryBench(films === undefined ? {} : { films }, 'healthy', 'blank 1', 'speed 600');
      bench.step(3);
      const earlyPa = bench.state().suctionPressurePa;
      bench.step(120);
      return { earlyPa, latePa: bench.state().suctionPressurePa };
    });
    const [plain, forming] = pressures;
    expect(forming?.earlyPa).toBeGreaterThan(2 * (plain?.earlyPa ?? Number.NaN));
    expectWithin(forming?.latePa ?? Number.NaN, plain?.latePa ?? Number.NaN, 1e-3);
  });

  it('foam makes the flow come and go as often as it was told, and then stay', () => {
    const bench = dryBench({ foam: { burstCount: 3, periodS: 2 } }, 'healthy', 'speed 600');
    let riseCount = 0;
    let wasFlowing = false;
    for (let step = 0; step < 300; step++) {
      bench.step(0.1);
      const isFlowing =
        bench.state().portFlowM3PerS > 0.5 * bench.truth().sweptVolumeM3PerRev * bench.state().speedRevPerS;
      if (isFlowing && !wasFlowing && bench.state().speedRevPerS > 0) riseCount += 1;
      wasFlowing = isFlowing;
    }
    // Three bursts; the last rise is oil that stays.
    expect(riseCount).toBe(4);
    expect(wasFlowing).toBe(true);
  });

  it('air at the strainer makes the column lighter, and it arrives nevertheless', () => {
    const bench = dryBench({ strainerAirShare: 0.1 }, 'healthy', 'speed 600');
    bench.step(30);
    const sound = dryBench({}, 'healthy', 'speed 600');
    sound.step(30);
    expect(bench.truth().priming.primedAtS).not.toBeNull();
    expect(bench.state().meterFlowM3PerS).toBeLessThan(0.95 * sound.state().meterFlowM3PerS);
  });
});
