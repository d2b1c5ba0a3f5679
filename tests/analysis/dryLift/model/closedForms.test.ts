import { describe, expect, it } from 'vitest';
import {
  blankOffPressure,
  gapConstantFor,
  simulateBlanked,
} from '../../../../analysis/dryLift/model/blankedSuction.ts';
import { gapLeak, gasGain } from '../../../../analysis/dryLift/model/dryPump.ts';
import type { BlankedStart } from '../../../../analysis/dryLift/model/dryStart.ts';
import { dryLiftLimitOf, liftOfPressure } from '../../../../analysis/dryLift/model/liftOfPressure.ts';
import { quasiStaticRiseS } from '../../../../analysis/dryLift/model/quasiStaticRise.ts';
import { pipeTable } from '../../../../analysis/dryLift/model/suctionPipe.ts';
import { sampleCourse } from '../../../../analysis/fitting/integrateStiff.ts';
import { expectRelative } from '../../../support/expectRelative.ts';
import { PLAIN_START, riser, TIGHT_PUMP } from '../../../support/inventedDryStart.ts';

const Q = (20e-6 * 1450) / 60;

/** Half a litre a second out of two litres. */
const evacuated = {
  ...PLAIN_START,
  pump: { ...TIGHT_PUMP, capacityM3PerRev: 0.5e-3 },
  speedRevPerS: () => 1,
  closedVolumeM3: 2e-3,
};

function pressureAt(start: BlankedStart, atS: number): number {
  return sampleCourse(simulateBlanked(start, atS, 1e-10), 0, [atS])[0] ?? Number.NaN;
}

function quasiStatic(liftM: number, deadVolumeM3: number, linearSlipM3PerSPerPa: number, watchS = 60): number | null {
  return quasiStaticRiseS(
    {
      pipe: pipeTable(riser(liftM)),
      deadVolumeM3,
      densityKgPerM3: 870,
      atmospherePa: 101_325,
      polytropicExponent: 1,
      // Slip as a flow at suction state, in proportion to the suction.
      gasGainPaM3PerS: (pa) => -pa * (Q - linearSlipM3PerSPerPa * (101_325 - pa)),
    },
    watchS,
    1e-11,
  );
}

describe('a blanked suction', () => {
  // p = p₀ exp(−Q t/V) and p − p_u = (p₀ − p_u) exp(−Q t/V): vacuum technique texts, from memory, recomputed.
  it('falls as an evacuated vessel does, from 101.325 to 10 kPa in 9.26299232 s', () => {
    expectRelative(pressureAt(evacuated, 9.26299232), 10_000, 1e-8);
  });

  it('falls to half in 0.693147181 and to a tenth in 2.302585093 fillings', () => {
    expectRelative(pressureAt(evacuated, Math.LN2 * 4), 0.5 * 101_325, 1e-8);
    expectRelative(pressureAt(evacuated, Math.LN10 * 4), 0.1 * 101_325, 1e-8);
  });

  it('with an ultimate pressure of 5 kPa comes to 10 kPa in 11.8331599 s', () => {
    // Carry-over alone gives that very law: G = −p Q (1 + κ) + κ Q p_d; with Q (1 + κ) = 0.5 l/s, p_u = p_d κ/(1 + κ) = 5 kPa.
    const share = 5000 / (101_325 - 5000);
    const pump = { ...TIGHT_PUMP, capacityM3PerRev: 0.5e-3 / (1 + share), carryOverShare: share };
    expectRelative(pressureAt({ ...evacuated, pump }, 11.8331599), 10_000, 1e-8);
  });

  // Slot 100 × 0.03 × 5 mm, air of 18.2 µPa s: C = b h³/(24 µ L) = 1.23626374e-9 m³/(s Pa); derived from isothermal laminar flow.
  const slot = 1.23626374e-9;
  const leaky = { ...PLAIN_START, pump: { ...TIGHT_PUMP, gapConstantM3PerSPerPa: slot } };
  it('comes to rest at 24 699.7285 Pa behind a slot of 0.03 mm, a lift of 8.98115 m', () => {
    expectRelative((0.1 * 30e-6 ** 3) / (24 * 18.2e-6 * 0.005), slot, 1e-8);
    expectRelative(blankOffPressure(leaky, 1450 / 60), 24_699.7285, 1e-7);
    expectRelative(dryLiftLimitOf(leaky, 1450 / 60, 870), 8.98115, 1e-6);
  });

  it('comes to that rest in time, too', () => {
    expectRelative(pressureAt({ ...leaky, closedVolumeM3: 1e-3 }, 60), 24_699.7285, 1e-7);
  });

  it('tells the gap constant back from the pressure at which it rests, with entry, carry-over and shaft leak', () => {
    const pump = { ...leaky.pump, entryLossS2PerM6: 2e7, carryOverShare: 0.02, shaftLeakM3PerSPerPa: 1e-10 };
    const start = { ...leaky, pump };
    expectRelative(gapConstantFor(start, 20, blankOffPressure(start, 20)) ?? Number.NaN, slot, 1e-9);
  });

  it('rests lower the faster it turns where gaps leak, and where carry-over alone brings gas back does not', () => {
    expect(blankOffPressure(leaky, 30)).toBeLessThan(blankOffPressure(leaky, 15));
    const carrying = { ...PLAIN_START, pump: { ...TIGHT_PUMP, carryOverShare: 0.05 } };
    // By hand: p (1 + κ) = κ p_d.
    for (const n of [15, 30]) expectRelative(blankOffPressure(carrying, n), (101_325 * 0.05) / 1.05, 1e-12);
  });

  it('cannot rest where carry-over alone brings more gas back', () => {
    const carrying = { ...PLAIN_START, pump: { ...TIGHT_PUMP, carryOverShare: 0.05 } };
    expect(gapConstantFor(carrying, 20, 4000)).toBeNull(); // 4000 Pa is below 101 325 · 0.05/1.05 = 4825 Pa
  });

  it('leaks through gap and entry in series as the quadratic asks, either way', () => {
    for (const [from, to] of [
      [101_325, 60_000],
      [60_000, 101_325],
    ] as const) {
      const leak = gapLeak(2e-9, 3e7, from, to);
      expectRelative(leak / 2e-9 + 3e7 * leak * Math.abs(leak), from ** 2 - to ** 2, 1e-12); // the law itself
    }
  });

  it('refuses a pump, a speed or a volume that cannot be', () => {
    expect(() => blankOffPressure(leaky, 0)).toThrow(RangeError);
    expect(() => blankOffPressure({ ...leaky, atmospherePa: Number.NaN }, 1)).toThrow(RangeError);
    expect(() => blankOffPressure({ ...leaky, pump: { ...TIGHT_PUMP, carryOverShare: -1 } }, 1)).toThrow(RangeError);
    expect(() => simulateBlanked({ ...leaky, closedVolumeM3: 0 }, 1)).toThrow(RangeError);
  });
});

describe('a column without inertia or friction', () => {
  // t(h) = (A/Q) [2 h + (l − H_a) ln(H_a/(H_a − h))], l = L + V_d/A, H_a = p_a/(ρ g): derived, agrees with quadrature.
  it('primes from 0.5 m with 50 ml dead volume in 0.523092890 s without slip', () => {
    expectRelative(quasiStatic(0.5, 50e-6, 0) ?? Number.NaN, 0.52309289, 1e-8);
  });

  it('primes from 1.5 m with 120 ml dead volume in 1.65745691 s without slip', () => {
    expectRelative(quasiStatic(1.5, 120e-6, 0) ?? Number.NaN, 1.65745691, 1e-8);
  });

  it('primes from 0.5 m in 0.74299525 s with a slip of 6e-8 m³/(s Pa)', () => {
    expectRelative(quasiStatic(0.5, 50e-6, 6e-8) ?? Number.NaN, 0.74299525, 1e-8);
  });

  it('never primes where the slip carries only 0.472 m of 0.5 m', () => {
    // X = Q/(k ρ g) = 0.472091 m with k = 1.2e-7 m³/(s Pa).
    expectRelative(Q / (1.2e-7 * 870 * 9.80665), 0.472091, 1e-6);
    expect(quasiStatic(0.5, 50e-6, 1.2e-7, 3600)).toBeNull();
  });

  it('takes longer by the level run it must fill and stands no higher for it', () => {
    // By hand: along a level run p stays, so dw/dt = Q; a run of 0.3 m adds its volume A · 0.3 m over Q, and nothing else
    // but what gas it adds behind the riser: with slip-free gas the riser's own time is that of dead volume V_d + A · 0.3 m.
    const level = {
      ...riser(0.5).segments[0],
      boreM: 0.025,
      lengthM: 0.3,
      riseM: 0,
      roughnessM: 0,
      fittingsLossCoefficient: 0,
    };
    const area = (Math.PI / 4) * 0.025 ** 2;
    const both = quasiStaticRiseS(
      {
        pipe: pipeTable({ ...riser(0.5), segments: [...riser(0.5).segments, level] }),
        deadVolumeM3: 50e-6,
        densityKgPerM3: 870,
        atmospherePa: 101_325,
        polytropicExponent: 1,
        gasGainPaM3PerS: (pa) => -pa * Q,
      },
      60,
      1e-10,
    );
    const riserAlone = quasiStatic(0.5, 50e-6 + 0.3 * area, 0) ?? Number.NaN;
    expectRelative(both ?? Number.NaN, riserAlone + (0.3 * area) / Q, 1e-7);
  });
});

describe('lift and pressure', () => {
  it('are tied by hydrostatics: 11.876178, 10.704090 and 3.671564 m at 0, 10 and 70 kPa', () => {
    expectRelative(liftOfPressure(101_325, 0, 870), 11.876178, 1e-7);
    expectRelative(liftOfPressure(101_325, 10_000, 870), 10.70409, 1e-7);
    expectRelative(liftOfPressure(101_325, 70_000, 870), 3.671564, 1e-6 / 3);
  });

  it('need 4265.89 Pa below the atmosphere for the half metre of the trade (common practice, no source)', () => {
    expectRelative(liftOfPressure(101_325, 101_325 - 4265.89, 870), 0.5, 1e-5);
    expectRelative(liftOfPressure(16_000, 0, 870), 1.87534, 1e-6);
  });
});

describe('films that dry or wet', () => {
  // By hand: a film that leaves a quarter of the breadth open leaves a quarter of C, and 1/(1/4)² = 16 times B. It is gone after
  // many τ. At C D = 1e-9 · (1e10 − 25e8) = 7.5 and B C² D = 4e7 · 1e-18 · 75e8 = 0.3 the leak is 2 · 7.5/(1 + √2.2) = 6.0405
  // then, and a quarter of it at first: in B C² the two cancel.
  const films = { startRatio: 0.25, timeConstantS: 2 };
  const pump = { ...TIGHT_PUMP, gapConstantM3PerSPerPa: 1e-9, entryLossS2PerM6: 4e7, gapChange: films };
  const running = { ...PLAIN_START, pump, atmospherePa: 1e5, deliveryPressurePa: 1e5 };
  it.each([
    [0, 6.0405 / 4],
    [200, 6.0405],
  ])('open and shut a share of the gap with its entry: %d s after motor start', (elapsedS, leak) => {
    expectRelative(gasGain(running, 0, 5e4, elapsedS), leak, 2e-5);
  });
});
