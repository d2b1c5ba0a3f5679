import { describe, expect, it } from 'vitest';
import { estimateDryLift } from '../../../../analysis/dryLift/estimate/dryLiftLimit.ts';
import type { DryPumpFit } from '../../../../analysis/dryLift/fit/dryPumpFit.ts';
import { fitDryPump } from '../../../../analysis/dryLift/fit/fitDryPump.ts';
import { intervalOf, uncertainOf } from '../../../../analysis/dryLift/fit/functionOfFit.ts';
import { dryLiftLimitOf } from '../../../../analysis/dryLift/model/liftOfPressure.ts';
import { sourceTable } from '../../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../../support/accepted.ts';
import { expectRelative } from '../../../support/expectRelative.ts';
import { INVENTED_SET_UP, inventedInput, inventedStart, LEAKY_PUMP, SPEED_REV_PER_S } from './inventedMeasuredStart.ts';

const AIR = { atmospherePa: 101_325, deliveryPressurePa: 101_325, polytropicExponent: 1.2 };
const TRUE_LIMIT_M = dryLiftLimitOf(
  { ...AIR, pump: LEAKY_PUMP, speedRevPerS: () => SPEED_REV_PER_S },
  SPEED_REV_PER_S,
  860,
);

/** Much leak, so that the column of the start comes near to the limit. */
const WORN_PUMP = {
  ...LEAKY_PUMP,
  gapConstantM3PerSPerPa: 1.5e-8,
  entryLossS2PerM6: 0.55 / (1.5e-8 * 101_325) ** 2,
};

/** Primes in a moment. */
const SHORT = { ...INVENTED_SET_UP, staticLiftM: { value: 0.1, standardUncertainty: 0.005 }, suctionPipeLengthM: 0.1 };

const quiet = accepted(fitDryPump(inventedInput(inventedStart())));
const worn = accepted(fitDryPump(inventedInput(inventedStart({ pump: WORN_PUMP, seed: 9 }))));
const noisy = accepted(fitDryPump(inventedInput(inventedStart({ seed: 1 }))));
const blanked = accepted(fitDryPump(inventedInput(inventedStart({ kind: 'blanked', seed: 2 }))));

function codes({ warnings }: DryPumpFit): readonly string[] {
  return warnings.map(({ code }) => code);
}

function relativeWidth(fit: DryPumpFit): number {
  const { value, lower, upper } = estimateDryLift(fit, SPEED_REV_PER_S).limitM;
  return (upper - lower) / value;
}

// Where a value is expected to come back it is the one that the start was made with: the fit returns what it was fed.
describe('leak-back of a dry pump', () => {
  it('returns gap constant, dead volume and limit that a noise-free start was made with', () => {
    const { space, parameters, covariance, hasConverged } = quiet.search;
    expect(hasConverged).toBe(true);
    // Not exactly: the range of leak-back, whose middle it is not, pulls by (u/2.5)² of the distance, about a per cent.
    const [leak = Number.NaN] = parameters;
    const pull = ((covariance[0]?.[0] ?? Number.NaN) / 2.5 ** 2) * (leak - (space.unknowns[0]?.expected ?? Number.NaN));
    const pulledM3PerSPerPa = LEAKY_PUMP.gapConstantM3PerSPerPa * Math.exp(-pull);
    expectRelative(space.pump(parameters).gapConstantM3PerSPerPa, pulledM3PerSPerPa, 2e-3);
    expect(pull).toBeLessThan(0.015);
    expectRelative(space.deadVolumeM3(parameters), INVENTED_SET_UP.deadVolumeM3, 5e-3);
    // The limit falls with rising leak-back, by less than in proportion.
    expectRelative(estimateDryLift(quiet, SPEED_REV_PER_S).limitM.value, TRUE_LIMIT_M, pull);
  });

  it('returns them from a noise-free blanked start too', () => {
    const fit = accepted(fitDryPump(inventedInput(inventedStart({ kind: 'blanked' }))));
    expectRelative(estimateDryLift(fit, SPEED_REV_PER_S).limitM.value, TRUE_LIMIT_M, 1e-4);
    expectRelative(fit.search.space.deadVolumeM3(fit.search.parameters), INVENTED_SET_UP.deadVolumeM3, 2e-3);
  });

  it('accounts to named sources for all of the variance that its covariance holds', () => {
    // u² = gᵀ (JᵀJ)⁻¹ g, summed over rows of the fit instead: the two must agree.
    const { covariance, parameters } = noisy.search;
    for (const index of [0, 1, 2]) {
      const of = (at: readonly number[]): number => at[index] ?? Number.NaN;
      const stated = stateUncertainty(uncertainOf(noisy, of), sourceTable(noisy.sources));
      expectRelative(stated.standardUncertainty ** 2, covariance[index]?.[index] ?? Number.NaN, 1e-6);
      expect(stated.value).toBe(parameters[index]);
    }
  });

  it.each([
    { name: 'a quick prime', fit: noisy, ids: ['dryPump.entryLoss', 'dryPump.gapChange', 'setUp.staticLift'] },
    {
      name: 'a blanked start',
      fit: blanked,
      ids: ['suctionPressure.gain', 'suctionPressure.offset', 'setUp.barometer'],
    },
    { name: 'a worn pump', fit: worn, ids: ['dryPump.entryLoss', 'setUp.suctionBore', 'capacity'] },
  ])('names $ids among what the limit from $name rests on', ({ fit, ids }) => {
    const { limitUncertainM } = estimateDryLift(fit, SPEED_REV_PER_S);
    const { budget } = stateUncertainty(limitUncertainM, sourceTable(fit.sources));
    expect(budget.map(({ sourceId }) => sourceId)).toEqual(expect.arrayContaining(ids));
  });

  it('fits a gap that is not shown to have stayed the same as one that may have changed', () => {
    expect(noisy.gapChange).toBe('undecided');
    expect(noisy.problem.mayGapChange).toBe(true);
    expect(blanked.problem.mayGapChange).toBe(false);
  });

  it('holds the truth with noise in its interval, lopsided where the limit is far above the lift', () => {
    const { value, lower, upper } = estimateDryLift(noisy, SPEED_REV_PER_S).limitM;
    expect(lower).toBeLessThan(TRUE_LIMIT_M);
    expect(upper).toBeGreaterThan(TRUE_LIMIT_M);
    expect(upper - value).toBeGreaterThan(value - lower);
  });

  it('gives the interval of its covariance for something that is straight in the parameters', () => {
    // The leak-back's own logarithm of a blanked start: profile and ± t u agree where the readings tell it well.
    const of = (at: readonly number[]): number => at[1] ?? Number.NaN;
    const { lower, upper } = intervalOf(blanked, of);
    const u = Math.sqrt(blanked.search.covariance[1]?.[1] ?? Number.NaN);
    expectRelative((upper - lower) / 2, 1.96 * u, 0.1);
  });

  it('tells the limit of a blanked start at least ten times as well as that of a quick prime', () => {
    expect(10 * relativeWidth(blanked)).toBeLessThan(relativeWidth(noisy));
  });

  it('shrinks the interval of a quick prime to that of the blanked start when both are fitted together', () => {
    const lift = inventedStart({ seed: 1 });
    const both = accepted(fitDryPump(inventedInput(lift, inventedStart({ kind: 'blanked', seed: 2 }))));
    expect(relativeWidth(both)).toBeLessThan(1.1 * relativeWidth(blanked));
  });

  it('tells carry-over from leak-back by blanked starts at two speeds, and not by one', () => {
    // By hand: C p_d²/Q is 3 kPa at 40 rev/s and 13 kPa at 10 rev/s, carry-over adds κ p_d = 1 kPa to both.
    const tight = { ...LEAKY_PUMP, gapConstantM3PerSPerPa: 2e-10, entryLossS2PerM6: 0 };
    const at = (speedRevPerS: number, seed: number) =>
      inventedStart({ kind: 'blanked', pump: tight, speedRevPerS, seed, id: `blanked-${speedRevPerS}` });
    const two = accepted(fitDryPump(inventedInput(at(10, 3), at(40, 4))));
    const one = accepted(fitDryPump(inventedInput(at(10, 3))));
    const carryOver = 2;
    expect(two.search.covariance[carryOver]?.[carryOver]).toBeLessThan(
      0.5 * (one.search.covariance[carryOver]?.[carryOver] ?? 0),
    );
  });

  it('tells less the sooner the pump primes: a lift of 0.1 m against 0.45 m', () => {
    const fast = accepted(fitDryPump(inventedInput(inventedStart({ setUp: SHORT, seed: 5 }))));
    expect(relativeWidth(fast)).toBeGreaterThan(relativeWidth(noisy));
  });

  it('says that the limit of a tight pump is not identified where it primed before anything could be told', () => {
    const tight = { ...LEAKY_PUMP, gapConstantM3PerSPerPa: 2e-11, entryLossS2PerM6: 0 };
    const fit = accepted(fitDryPump(inventedInput(inventedStart({ pump: tight, setUp: SHORT, seed: 6 }))));
    expect(codes(fit)).toContain('LIMIT_NOT_IDENTIFIED');
    const { lower, upper } = estimateDryLift(fit, SPEED_REV_PER_S).limitM;
    expect(lower).toBeGreaterThan(0);
    // Not above what a vacuum lifts: p_atm/(ρ g) = 101 325/(860 · 9.80665) m, and the barometer's 0.1 %.
    expect(upper).toBeLessThan(1.001 * (101_325 / (860 * 9.80665)));
    expect(upper / lower).toBeGreaterThan(1.5);
  });

  it('sees a gap that changes threefold, and leaves undecided what a quick prime cannot tell', () => {
    const drying = { ...WORN_PUMP, gapChange: { startRatio: 0.33, timeConstantS: 1.5 } };
    const fit = accepted(fitDryPump(inventedInput(inventedStart({ kind: 'blanked', pump: drying, seed: 7 }))));
    expect(fit.gapChange).toBe('changes');
    expect(codes(fit)).toContain('GAP_CHANGES');
    expect(noisy.gapChange).toBe('undecided');
    expect(codes(noisy)).toContain('IN_THIS_CLASS_ONLY');
    expect(blanked.gapChange).toBe('constant');
  });
});

describe('what stays on a fit, or stops it', () => {
  it('refuses a suction that hardly fell', () => {
    const still = inventedStart({ pump: { ...LEAKY_PUMP, capacityM3PerRev: 1e-9 } });
    const outcome = fitDryPump(inventedInput(still));
    expect(outcome.ok ? null : outcome.reason.code).toBe('NO_SUCTION');
  });

  it('refuses a curve that no dry start makes', () => {
    const { start, ...rest } = inventedStart();
    const broken = start.pressuresPa.map((pressure, index) => ({
      ...pressure,
      value: pressure.value - (index % 40 > 20 ? 3000 : 0),
    }));
    const outcome = fitDryPump(inventedInput({ ...rest, start: { ...start, pressuresPa: broken } }));
    expect(outcome.ok ? null : outcome.reason.code).toBe('NOT_A_DRY_START');
  });

  it('refuses a search that may not go on until it agrees', () => {
    const outcome = fitDryPump({ ...inventedInput(inventedStart({ kind: 'blanked' })), mostIterations: 0 });
    expect(outcome.ok ? null : outcome.reason.code).toBe('DID_NOT_CONVERGE');
  });

  it('warns of a single blanked speed, and not of two', () => {
    expect(codes(blanked)).toContain('BLANKED_AT_ONE_SPEED');
    const at = (speedRevPerS: number) =>
      inventedStart({ kind: 'blanked', speedRevPerS, id: `blanked-${speedRevPerS}` });
    expect(codes(accepted(fitDryPump(inventedInput(at(10), at(5)))))).not.toContain('BLANKED_AT_ONE_SPEED');
  });

  it('warns of a dead volume that the suction contradicts, of what was assumed, of geometry and of an open shaft end', () => {
    const start = inventedStart({ kind: 'blanked', seed: 8 });
    const fit = accepted(
      fitDryPump({
        ...inventedInput({
          ...start,
          assumed: ['bore to 1 %'],
          deadVolume: { valueM3: 2 * INVENTED_SET_UP.deadVolumeM3, relativeStandardUncertainty: 0.05 },
        }),
        capacity: { m3PerRev: { value: LEAKY_PUMP.capacityM3PerRev, sensitivities: {} }, basis: 'geometry' },
        shaftEnds: 'open',
      }),
    );
    expect(codes(fit)).toEqual(
      expect.arrayContaining([
        'DEAD_VOLUME_CONTRADICTED',
        'SUCTION_SIDE_ASSUMED',
        'CAPACITY_FROM_GEOMETRY',
        'SHAFT_LEAK_COUNTED_IN',
      ]),
    );
  });

  it('warns of a barometer three times further from the suction at rest than the two allow', () => {
    const fit = accepted(
      fitDryPump(
        inventedInput({
          ...inventedStart({ kind: 'blanked', seed: 9 }),
          restDifferencePa: { value: 500, sensitivities: { 'setUp.barometer': 1, 'suctionPressure.offset': -1 } },
        }),
      ),
    );
    expect(codes(fit)).toContain('BAROMETER_CONTRADICTS_SUCTION');
  });

  it('warns of readings that scatter twice as far as their noise', () => {
    const { start, ...rest } = inventedStart({ kind: 'blanked', seed: 10 });
    const quieter = start.standardDeviationsPa.map((deviationPa) => deviationPa / 2);
    const fit = accepted(fitDryPump(inventedInput({ ...rest, start: { ...start, standardDeviationsPa: quieter } })));
    expect(codes(fit)).toContain('MODEL_MISFIT');
    expectRelative(fit.search.noiseFactor, 2, 0.15);
  });

  it('refuses a wrong caller: no start at all', () => {
    expect(() => fitDryPump(inventedInput())).toThrow(RangeError);
  });
});
