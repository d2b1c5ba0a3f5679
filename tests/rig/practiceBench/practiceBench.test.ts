import { describe, expect, it } from 'vitest';
import { checksum } from '../../../rig/practiceBench/checksum.ts';
import { createPracticeBench, type PracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { createOil } from '../../../rig/practiceBench/oil.ts';
import { type PracticeScenario, trueFlowM3PerS } from '../../../rig/practiceBench/pumpTruth.ts';
import { PRACTICE_SET_UP } from '../../../rig/practiceBench/setUp.ts';
import { sampleBench } from '../../support/samples.ts';
import { expectWithin } from './expectWithin.ts';
import { stepUntil } from './stepUntil.ts';

const SEEDS = [1, 20, 333];

function readings(lines: readonly string[]): number[][] {
  return lines
    .filter((line) => line.startsWith('$'))
    .map((line) => line.slice(1, line.indexOf('*')).split(',').map(Number));
}

/** A flooded pump at 900 r/min and 3 bar with the valve left alone. */
function atThreeBar(seed: number, scenario: PracticeScenario): PracticeBench {
  const bench = createPracticeBench({ seed, scenario });
  for (const command of ['flood', 'speed 900', 'pressure 3']) bench.command(command);
  stepUntil(bench, () => !bench.state().isHandTurning, 30);
  return bench;
}

describe('wire', () => {
  it.each(SEEDS)('sends the same bytes for the same seed %i, however time is cut', (seed) => {
    const options = { seed, scenario: 'healthy', speedUp: 2 } as const;
    const whole = createPracticeBench(options);
    const cut = createPracticeBench(options);
    for (const bench of [whole, cut]) bench.command('speed 600');
    const atOnce = whole.step(6).join('');
    let piecewise = '';
    for (let part = 0; part < 600; part++) piecewise += cut.step(0.01).join('');
    expect(piecewise).toBe(atOnce);
  });

  it('sends other bytes for another seed', () => {
    const [one, other] = [1, 2].map((seed) => createPracticeBench({ seed, scenario: 'healthy' }).step(1).join(''));
    expect(one).not.toBe(other);
  });

  it('sends a value for each channel of the bench record behind counter and bench clock, with a right checksum', () => {
    const lines = createPracticeBench({ seed: 1, scenario: 'healthy', readingsPerS: 50 }).step(1);
    const rows = readings(lines);
    expect(rows).toHaveLength(50);
    for (const line of lines) {
      const [, body, sum] = /^[$#](.*)\*([0-9A-F]{4})\r\n$/.exec(line) ?? [];
      expect(checksum(body ?? '')).toBe(sum);
    }
    for (const [index, row] of rows.entries()) {
      expect(row).toHaveLength(2 + sampleBench().channels.length);
      // 50 readings a second: the clock of reading k, counted from 0, is (k + 1) · 20 000 µs.
      expect(row.slice(0, 2)).toEqual([index, (index + 1) * 20_000]);
    }
  });

  it('wraps counter and clock', () => {
    const bench = createPracticeBench({
      seed: 1,
      scenario: 'healthy',
      firstSequence: 2 ** 32 - 2,
      firstDeviceUs: 2 ** 32 - 40_000,
    });
    // Readings at 20, 40 and 60 ms: clock 2^32 − 20 000, 0, 20 000.
    expect(readings(bench.step(0.06)).map((row) => row.slice(0, 2))).toEqual([
      [4294967294, 4294947296],
      [4294967295, 0],
      [0, 20000],
    ]);
  });

  it('says that it is practice at first and then once a second of the wall, and never its seed', () => {
    const notes = createPracticeBench({ seed: 987654, scenario: 'worn', speedUp: 20 })
      .step(60)
      .filter((line) => line.startsWith('#'));
    // At 0, 20, 40 and 60 s of bench time.
    const body = 'slipwright practice bench, speed-up 20';
    expect(notes).toEqual(Array(4).fill(`#${body}*${checksum(body)}\r\n`));
  });

  it('answers what it does not understand with a note', () => {
    const bench = createPracticeBench({ seed: 1, scenario: 'healthy' });
    bench.step(0.1);
    bench.command('open sesame');
    const [note] = bench.step(0.001);
    expect(note).toMatch(/^#did not understand 'open sesame': expected .*\*[0-9A-F]{4}\r\n$/);
  });

  it('refuses options that make no sense', () => {
    expect(() => createPracticeBench({ seed: 1.5, scenario: 'healthy' })).toThrow(RangeError);
    expect(() => createPracticeBench({ seed: 1, scenario: 'healthy', readingsPerS: 0 })).toThrow(RangeError);
    expect(() => createPracticeBench({ seed: 1, scenario: 'healthy', speedUp: 1e6 })).toThrow(RangeError);
    expect(() => createPracticeBench({ seed: 1, scenario: 'healthy' }).step(-1)).toThrow(RangeError);
  });
});

describe('delivery', () => {
  it.each(SEEDS)('a healthy pump delivers some 92 per cent at 3 bar, a worn one some 60 (seed %i)', (seed) => {
    for (const [scenario, expected] of [
      ['healthy', 0.92],
      ['worn', 0.6],
    ] as const) {
      const bench = atThreeBar(seed, scenario);
      const { meterFlowM3PerS, speedRevPerS } = bench.state();
      // By hand, 3.05 bar and 46 mPa s: healthy (2e-12 · 3.05e5/0.046 + 1.25e-7 · 26.7)/(13.88e-6 · 15) = 8 %;
      // worn 39.8 %. Scatter of the slip constants: 5 and 10 %.
      const efficiency = meterFlowM3PerS / (bench.truth().derivedCapacityM3PerRev * speedRevPerS);
      expect(Math.abs(efficiency - expected)).toBeLessThan(0.03);
    }
  });

  it.each(SEEDS)(
    'delivers on the mean what the truth says, and the oil stays within 0.5 K in ten seconds (seed %i)',
    (seed) => {
      for (const scenario of ['healthy', 'worn'] as const) {
        const bench = atThreeBar(seed, scenario);
        const before = bench.state();
        let flowSum = 0;
        let differenceSum = 0;
        const steps = 10_000;
        for (let step = 0; step < steps; step++) {
          bench.step(0.001);
          const state = bench.state();
          flowSum += state.meterFlowM3PerS;
          differenceSum += state.deliveryPressurePa - state.suctionPressurePa;
        }
        const after = bench.state();
        const law = trueFlowM3PerS(bench.truth().pump, createOil(PRACTICE_SET_UP), {
          speedRevPerS: after.speedRevPerS,
          differentialPressurePa: differenceSum / steps,
          oilTemperatureK: (before.oilTemperatureK + after.oilTemperatureK) / 2,
        });
        // What goes into the line comes out of it: only the bend of the root law over the ripple may differ.
        expectWithin(flowSum / steps, law, 2e-4);
        expect(Math.abs(after.oilTemperatureK - before.oilTemperatureK)).toBeLessThan(0.5);
      }
    },
  );

  it('the true flow is the one worked by hand', () => {
    // 15 rev/s, 3 bar, 318.15 K: V_i n = 14e-6 · 15 = 2.1e-4; ν(45 °C) from (40 °C, 68), (100 °C, 8.7 mm²/s):
    // log log(ν + 0.7) = 0.264099 − 3.624396 · log(318.15/313.15) = 0.239165, ν = 53.5578 mm²/s;
    // ρ = 875 exp(−7.2e-4 · 30) = 856.3027, µ = 0.04586169; laminar 2e-12 · 3e5/0.04586169 = 1.308281e-5;
    // orifice 1.25e-7 · √(6e5/856.3027) = 3.308811e-6; q = 1.936084e-4 m³/s.
    const pump = {
      ...createPracticeBench({ seed: 1, scenario: 'healthy' }).truth().pump,
      derivedCapacityAtReferenceM3PerRev: 14e-6,
      laminarSlipAtReferenceM3: 2e-12,
      orificeSlipM2: 1.25e-7,
    };
    const flow = trueFlowM3PerS(pump, createOil(PRACTICE_SET_UP), {
      speedRevPerS: 15,
      differentialPressurePa: 3e5,
      oilTemperatureK: 318.15,
    });
    expectWithin(flow, 1.936084e-4, 1e-6);
  });

  it.each(SEEDS)(
    'V_i stays within 0.55 per cent of the geometry and its drag of 2.8: 0.5 of scatter, a little warmth (seed %i)',
    (seed) => {
      const truth = createPracticeBench({ seed, scenario: 'healthy' }).truth();
      expectWithin(truth.sweptVolumeM3PerRev, 13_881.2767e-9, 1e-8);
      // 396 mm³ a turn beyond 13.88 cm³, worked by hand beside the constant.
      expectWithin(truth.derivedCapacityM3PerRev, 1.028 * truth.sweptVolumeM3PerRev, 0.0055);
    },
  );

  it('the hand meets pressures up and down and then leaves the valve alone', () => {
    const bench = atThreeBar(4, 'worn');
    for (const bar of [5, 1, 3]) {
      bench.command(`pressure ${bar}`);
      stepUntil(bench, () => !bench.state().isHandTurning, 30);
      const { valveOpening } = bench.state();
      // The mean of five seconds: the gauge of the moment flutters with the teeth.
      let gaugeSumPa = 0;
      for (let step = 0; step < 5000; step++) {
        bench.step(0.001);
        gaugeSumPa += bench.state().deliveryPressurePa - PRACTICE_SET_UP.barometerPa;
      }
      // The hand is content within 0.4 % or 5 mbar; the oil that cools or warms moves the gauge a little.
      expectWithin(gaugeSumPa / 5000, bar * 1e5, 0.008);
      expect(bench.state().valveOpening).toBe(valveOpening);
    }
  });

  it('the hand gives up at the stop of the valve when the pump cannot make the pressure', () => {
    // Worn at 5 rev/s and 3 bar: slip 8.3e-5 m³/s of the 6.9e-5 m³/s that the gears displace.
    const bench = createPracticeBench({ seed: 4, scenario: 'worn' });
    for (const command of ['flood', 'speed 300', 'pressure 3']) bench.command(command);
    stepUntil(bench, () => !bench.state().isHandTurning, 30);
    expect(bench.state().deliveryPressurePa - PRACTICE_SET_UP.barometerPa).toBeLessThan(3e5);
    expect(bench.state().valveOpening).toBe(0.01);
  });

  it('a valve command ends the hand, and the valve never shuts', () => {
    const bench = createPracticeBench({ seed: 1, scenario: 'healthy' });
    for (const command of ['flood', 'speed 1500', 'pressure 5', 'valve 0']) bench.command(command);
    bench.step(10);
    // Relief valve at 8 bar, 0.5 bar of overriding at most.
    const gaugePa = bench.state().deliveryPressurePa - PRACTICE_SET_UP.barometerPa;
    expect(bench.state().isHandTurning).toBe(false);
    expect(gaugePa).toBeGreaterThan(8e5);
    expect(gaugePa).toBeLessThan(8.5e5);
  });

  it('hotter oil slips more', () => {
    const bench = atThreeBar(1, 'healthy');
    const coolM3PerS = bench.state().meterFlowM3PerS;
    bench.command('oil 70');
    bench.step(3);
    expect(bench.state().oilTemperatureK).toBeGreaterThan(343);
    expect(bench.state().meterFlowM3PerS).toBeLessThan(coolM3PerS);
  });

  it('the sensors show what happens, within four of their stated uncertainties and noise', () => {
    const bench = atThreeBar(1, 'healthy');
    const row = readings(bench.step(1)).at(-1) ?? [];
    const state = bench.state();
    const expected = [
      [state.suctionPressurePa / 1e5, 4 * 0.0008],
      [(state.deliveryPressurePa - 101_325) / 1e5, 4 * 0.009],
      [state.meterFlowM3PerS * 6e4, 4 * 0.045],
      [state.speedRevPerS * 60, 4 * 0.4],
      [state.oilTemperatureK - 273.15, 4 * 0.21],
      [state.meterTemperatureK - 273.15, 4 * 0.21],
      [state.caseTemperatureK - 273.15, 4 * 0.31],
      [state.torqueNM, 4 * 0.03],
      [1013.25, 4 * 0.31],
    ] as const;
    expect(row).toHaveLength(2 + expected.length);
    for (const [index, [value, tolerance]] of expected.entries()) {
      expect(Math.abs((row[index + 2] ?? Number.NaN) - value)).toBeLessThan(tolerance);
    }
  });
});
