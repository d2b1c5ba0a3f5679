import { describe, expect, it } from 'vitest';
import { estimateDryLift } from '../../../../analysis/dryLift/estimate/dryLiftLimit.ts';
import { inletPressure } from '../../../../analysis/dryLift/estimate/inletPressure.ts';
import { primingAgainstLift } from '../../../../analysis/dryLift/estimate/primingAgainstLift.ts';
import { transferToMachine } from '../../../../analysis/dryLift/estimate/transferToMachine.ts';
import { fitDryPump } from '../../../../analysis/dryLift/fit/fitDryPump.ts';
import { simulateDryStart } from '../../../../analysis/dryLift/model/simulateDryStart.ts';
import { rampedSpeed } from '../../../../analysis/dryLift/model/speedCourse.ts';
import type { MachineSuction } from '../../../../analysis/records/suctionPipe.ts';
import { accepted } from '../../../support/accepted.ts';
import { expectRelative } from '../../../support/expectRelative.ts';
import { riser } from '../../../support/inventedDryStart.ts';
import { INVENTED_VG46 } from '../../../support/inventedOil.ts';
import { inventedInput, inventedStart, LEAKY_PUMP, SPEED_REV_PER_S } from '../fit/inventedMeasuredStart.ts';

const fit = accepted(
  fitDryPump(inventedInput(inventedStart({ seed: 11 }), inventedStart({ kind: 'blanked', seed: 12 }))),
);
const { limitM, blankOffPressurePa } = estimateDryLift(fit, SPEED_REV_PER_S);

const MACHINE: MachineSuction = {
  pipe: {
    submergedLengthM: 0.2,
    pieces: [
      {
        boreM: { value: 0.03, standardUncertainty: 1e-4 },
        lengthM: { value: 0.6, standardUncertainty: 0.005 },
        riseM: 0.5,
        fittingLossCoefficient: 1,
      },
    ],
    strainerLossCoefficient: 2,
    hasFootValve: false,
  },
  deadVolumeM3: { value: 80e-6, standardUncertainty: 10e-6 },
  barometerPa: { value: 95_000, standardUncertainty: 500 },
  crankingSpeedRevPerS: 3,
  oilTemperatureK: 313.15,
  leastInletPressurePa: 60_000,
};

describe('the dry lift limit', () => {
  it('is the column that the blank-off pressure carries', () => {
    // Hydrostatics: h = (p_atm − p)/(ρ g).
    expectRelative(limitM.value, (101_325 - blankOffPressurePa.value) / (860 * 9.80665), 2e-3);
  });

  it('falls with the speed, since leakage does not', () => {
    expect(estimateDryLift(fit, 3).limitM.value).toBeLessThan(limitM.value);
  });

  it('is lower in thin air', () => {
    const first = fit.problem.starts[0];
    if (first === undefined) throw new Error('no start');
    const surroundings = { ...first.surroundings, atmospherePa: { value: 80_000, sensitivities: {} } };
    expect(estimateDryLift(fit, SPEED_REV_PER_S, surroundings).limitM.value).toBeLessThan(limitM.value);
  });
});

describe('priming time against lift', () => {
  const times = primingAgainstLift(fit, [0.2, 0.45, 1, 1.2 * limitM.upper]);

  it('is the time of the model for the pump that the start was made with, within its band', () => {
    const { oilAtOutletS } = simulateDryStart(
      {
        pump: LEAKY_PUMP,
        speedRevPerS: rampedSpeed(SPEED_REV_PER_S, 0.4),
        atmospherePa: 101_325,
        deliveryPressurePa: 101_325,
        polytropicExponent: 1.2,
        pipe: {
          ...riser(0.45),
          submerged: { ...riser(0.45).submerged, lengthM: 0.15 },
          segments: [0.45, 0].map((riseM, index) => ({
            boreM: 0.025,
            roughnessM: 0,
            fittingsLossCoefficient: 0,
            riseM,
            lengthM: index === 0 ? 0.45 : 0.35,
          })),
        },
        deadVolumeM3: 60e-6,
        oil: { densityKgPerM3: 860, dynamicViscosityPaS: 0.045 },
        outletVolumeM3: LEAKY_PUMP.capacityM3PerRev,
        deliveryLineVolumeM3: 0,
      },
      20,
    );
    const { lower, upper } = times[1]?.timeS ?? { lower: null, upper: null };
    expect(lower).toBeLessThan(oilAtOutletS ?? 0);
    expect(upper).toBeGreaterThan(oilAtOutletS ?? Number.POSITIVE_INFINITY);
  });

  it('rises with the lift and is never beyond the limit', () => {
    const values = times.map(({ timeS }) => timeS.value ?? Number.POSITIVE_INFINITY);
    expect(values).toEqual([...values].sort((a, b) => a - b));
    expect(times[3]?.timeS).toEqual({ value: null, lower: null, upper: null });
  });

  it('refuses a lift of zero as a wrong caller', () => {
    expect(() => primingAgainstLift(fit, [0])).toThrow(RangeError);
  });
});

describe('inlet pressure of a pump that delivers', () => {
  it('is the atmosphere less column, laminar friction and velocity head', () => {
    // By hand: 870 · 9.80665 · 0.5 = 4265.893 Pa; v = 0.5 m/s: 32 µ (0.5 + 0.2) v/d² = 32 · 0.04 · 0.7 · 0.5/0.025² = 716.8 Pa;
    // ρ v²/2 = 108.75 Pa. Re = 870 · 0.5 · 0.025/0.04 = 272: laminar.
    const areaM2 = (Math.PI / 4) * 0.025 ** 2;
    const oil = { densityKgPerM3: 870, dynamicViscosityPaS: 0.04 };
    expectRelative(inletPressure(101_325, riser(0.5), oil, 0.5 * areaM2), 101_325 - 4265.89275 - 716.8 - 108.75, 1e-9);
  });
});

describe('the start that the machine will make', () => {
  const predicted = accepted(transferToMachine(fit, MACHINE, INVENTED_VG46));

  it('is marked as a prediction, at cranking speed and with a margin', () => {
    expect(predicted.isPrediction).toBe(true);
    expect(predicted.speedRevPerS).toBe(3);
    expectRelative(predicted.marginM.value, predicted.limitM.value - 0.5, 1e-12);
    expect(predicted.limitM.value).toBeLessThan(limitM.value); // slower, thinner air
  });

  it('takes longer in colder oil, higher up, and never from above the limit', () => {
    const timeOf = (changed: Partial<MachineSuction>): number =>
      accepted(transferToMachine(fit, { ...MACHINE, ...changed }, INVENTED_VG46)).primingTimeS.value ??
      Number.POSITIVE_INFINITY;
    const here = predicted.primingTimeS.value ?? Number.NaN;
    expect(timeOf({ oilTemperatureK: 283.15 })).toBeGreaterThan(here);
    expect(timeOf({ barometerPa: { value: 75_000, standardUncertainty: 500 } })).toBeGreaterThan(here);
    expect(timeOf({ crankingSpeedRevPerS: 0.05 })).toBe(Number.POSITIVE_INFINITY);
  });

  it('holds its lowest inlet pressure against the limit that a person set', () => {
    const judged = (leastInletPressurePa: number | null) =>
      accepted(transferToMachine(fit, { ...MACHINE, leastInletPressurePa }, INVENTED_VG46)).isAboveLeastPressure;
    const { value } = predicted.lowestInletPressurePa;
    expect([null, 60_000, value, 94_900].map(judged)).toEqual([null, 'yes', 'not proven', 'no']);
  });

  it('is the wider the less is known of the machine', () => {
    const vague = accepted(
      transferToMachine(fit, { ...MACHINE, deadVolumeM3: { value: 80e-6, standardUncertainty: 40e-6 } }, INVENTED_VG46),
    );
    const widthOf = ({ lower, upper }: typeof predicted.primingTimeS): number => (upper ?? 1e9) - (lower ?? 0);
    expect(widthOf(vague.primingTimeS)).toBeGreaterThan(widthOf(predicted.primingTimeS));
  });

  it('refuses a dead volume of zero, a pump below its oil, and oil out of its law', () => {
    const codeOf = (changed: Partial<MachineSuction>): string | null => {
      const outcome = transferToMachine(fit, { ...MACHINE, ...changed }, INVENTED_VG46);
      return outcome.ok ? null : outcome.reason.code;
    };
    expect(codeOf({ deadVolumeM3: { value: 0, standardUncertainty: 0 } })).toBe('MACHINE_DEAD_VOLUME_ZERO');
    const falling = MACHINE.pipe.pieces.map((piece) => ({ ...piece, riseM: -0.3 }));
    expect(codeOf({ pipe: { ...MACHINE.pipe, pieces: falling } })).toBe('MACHINE_LIFT_ZERO');
    expect(codeOf({ oilTemperatureK: 150 })).toBe('TEMPERATURE_OUT_OF_RANGE');
  });
});
