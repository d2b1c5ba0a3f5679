import { describe, expect, it } from 'vitest';
import { dryLiftLimitOf } from '../../../../analysis/dryLift/model/liftOfPressure.ts';
import { FLOW_M3_PER_S, PRESSURE_PA, simulateDryStart } from '../../../../analysis/dryLift/model/simulateDryStart.ts';
import { rampedSpeed, recordedSpeed } from '../../../../analysis/dryLift/model/speedCourse.ts';
import { type StiffCourse, sampleCourse } from '../../../../analysis/fitting/integrateStiff.ts';
import { expectRelative } from '../../../support/expectRelative.ts';
import { PLAIN_START, riser, TIGHT_PUMP } from '../../../support/inventedDryStart.ts';

const AREA = (Math.PI / 4) * 0.025 ** 2;

const THICK = {
  ...PLAIN_START,
  pump: { ...TIGHT_PUMP, capacityM3PerRev: 10e-6 },
  speedRevPerS: () => 10,
  oil: { dynamicViscosityPaS: 890 * 1e-3, densityKgPerM3: 890 },
};

function atEnd(course: StiffCourse, component: number): number {
  return sampleCourse(course, component, [course.times[course.times.length - 1] ?? 0])[0] ?? Number.NaN;
}

describe('a dry start with the whole column', () => {
  // Reference solutions of the same equations by Radau and DOP853, which agree to 1e-13.
  it('reaches the inlet in 0.5339731942 s with oil of 46 mm²/s, at 1.092764 m/s and 95 110.477 Pa', () => {
    const { rise, oilAtInletS } = simulateDryStart(PLAIN_START, 10, 1e-10);
    expectRelative(oilAtInletS ?? Number.NaN, 0.5339731942, 1e-7);
    expectRelative(atEnd(rise, FLOW_M3_PER_S) / AREA, 1.092764, 1e-6);
    expectRelative(atEnd(rise, PRESSURE_PA), 95_110.477, 1e-7);
  });

  it('reaches the inlet in 2.664993631 s with oil of 1000 mm²/s, at 90 576.886 Pa', () => {
    const { rise, oilAtInletS } = simulateDryStart(THICK, 20, 1e-10);
    expectRelative(oilAtInletS ?? Number.NaN, 2.664993631, 1e-7);
    expectRelative(atEnd(rise, PRESSURE_PA), 90_576.886, 1e-7);
  });

  it('keeps the time to 1e-5 at the tolerance that it uses by itself', () => {
    expectRelative(simulateDryStart(PLAIN_START, 10).oilAtInletS ?? Number.NaN, 0.5339731942, 1e-5);
    expectRelative(simulateDryStart(THICK, 20).oilAtInletS ?? Number.NaN, 2.664993631, 1e-5);
  });

  it('stays accurate where an explicit method would crawl: cold oil in a narrow pipe', () => {
    // No published value: the coarse and the fine tolerance must agree, and few steps do.
    const stiff = {
      ...THICK,
      pipe: {
        ...riser(0.5),
        submerged: { ...riser(0.5).submerged, boreM: 0.008 },
        segments: riser(0.5).segments.map((segment) => ({ ...segment, boreM: 0.008 })),
      },
      oil: { dynamicViscosityPaS: 890 * 5e-3, densityKgPerM3: 890 },
      deadVolumeM3: 5e-6,
    };
    const coarse = simulateDryStart(stiff, 600);
    const fine = simulateDryStart(stiff, 600, 1e-10);
    expectRelative(coarse.oilAtInletS ?? Number.NaN, fine.oilAtInletS ?? Number.NaN, 1e-4);
    expect(coarse.rise.times.length).toBeLessThan(400);
  });

  it('approaches the law without inertia and friction for thin oil in a slow start', () => {
    // (A/Q) [2 h + (l − H_a) ln(H_a/(H_a − h))] with Q a hundredth: 100 × 0.523092890 s; derived closed form.
    const slow = {
      ...PLAIN_START,
      speedRevPerS: () => 14.5 / 60,
      oil: { dynamicViscosityPaS: 1e-6, densityKgPerM3: 870 },
    };
    expectRelative(simulateDryStart(slow, 200).oilAtInletS ?? Number.NaN, 52.309289, 1e-3);
  });

  it('never brings oil to the inlet above its limit, and does below it', () => {
    const pump = { ...TIGHT_PUMP, gapConstantM3PerSPerPa: 2.5e-8 };
    const leaky = { ...PLAIN_START, pump };
    const limitM = dryLiftLimitOf(leaky, 1450 / 60, 870);
    const above = simulateDryStart({ ...leaky, pipe: riser(1.1 * limitM) }, 600);
    expect(above.oilAtInletS).toBeNull();
    expect(above.sustainedDeliveryS).toBeNull();
    // The column comes to rest at the limit.
    expectRelative(sampleCourse(above.rise, 0, [600])[0] ?? Number.NaN, limitM * AREA, 1e-4);
    expect(simulateDryStart({ ...leaky, pipe: riser(0.9 * limitM) }, 600).sustainedDeliveryS).not.toBeNull();
  });

  it('fills outlet and delivery line at the swept flow once the pump is full', () => {
    const filled = simulateDryStart({ ...PLAIN_START, outletVolumeM3: 10e-6, deliveryLineVolumeM3: 100e-6 }, 10);
    const sweptM3PerS = (20e-6 * 1450) / 60;
    // By hand: volume over V_i n.
    expectRelative((filled.oilAtOutletS ?? 0) - (filled.pumpFullS ?? 0), 10e-6 / sweptM3PerS, 1e-9);
    expectRelative((filled.sustainedDeliveryS ?? 0) - (filled.oilAtOutletS ?? 0), 100e-6 / sweptM3PerS, 1e-9);
    expect(filled.pumpFullS ?? 0).toBeGreaterThan(filled.oilAtInletS ?? 0);
  });

  it('starts later by half of the ramp of its motor, since oil follows the turns', () => {
    // A slow start without inertia sees turns alone: a ramp of T loses n T/2 turns.
    const thin = { ...PLAIN_START, oil: { dynamicViscosityPaS: 1e-6, densityKgPerM3: 870 } };
    const even = simulateDryStart({ ...thin, speedRevPerS: () => 0.5 }, 200).oilAtInletS ?? Number.NaN;
    const ramped = simulateDryStart({ ...thin, speedRevPerS: rampedSpeed(0.5, 4) }, 200).oilAtInletS ?? Number.NaN;
    expectRelative(ramped - even, 2, 1e-2);
    const recorded = recordedSpeed([0, 4, 9], [0, 0.5, 0.5]);
    expectRelative(simulateDryStart({ ...thin, speedRevPerS: recorded }, 200).oilAtInletS ?? 0, ramped, 1e-6);
    expect(() => recordedSpeed([0], [])).toThrow(RangeError);
  });

  it('holds the column with a foot valve when the pump stops, and lets it fall back without one', () => {
    // By hand: with the valve the gas alone leaks in and the oil stays; without it the column follows the gas down.
    const pump = { ...TIGHT_PUMP, gapConstantM3PerSPerPa: 2e-9 };
    const stopping = { ...PLAIN_START, pump, pipe: riser(2), speedRevPerS: recordedSpeed([0, 0.5, 0.6], [24, 24, 0]) };
    const filledAt = (hasFootValve: boolean): number => {
      const { rise } = simulateDryStart({ ...stopping, pipe: { ...stopping.pipe, hasFootValve } }, 60);
      const [before = 0, after = 0] = sampleCourse(rise, 0, [1.5, 60]);
      return after / before;
    };
    expect(filledAt(true)).toBeGreaterThan(0.9);
    expect(filledAt(false)).toBeLessThan(0.3);
  });

  it('takes fittings and a turbulent pipe for what they are: slower, and more so with more of them', () => {
    const water = { dynamicViscosityPaS: 1e-3, densityKgPerM3: 1000 };
    const timeWith = (fittingsLossCoefficient: number): number =>
      simulateDryStart(
        {
          ...PLAIN_START,
          oil: water,
          pipe: { ...riser(2), submerged: { ...riser(2).submerged, fittingsLossCoefficient } },
        },
        60,
      ).oilAtInletS ?? Number.NaN;
    expect(timeWith(10)).toBeGreaterThan(timeWith(0));
    expect(timeWith(40)).toBeGreaterThan(timeWith(10));
  });

  it('refuses starts that cannot be', () => {
    expect(() => simulateDryStart({ ...PLAIN_START, deadVolumeM3: 0 }, 10)).toThrow(RangeError);
    expect(() => simulateDryStart({ ...PLAIN_START, outletVolumeM3: -1 }, 10)).toThrow(RangeError);
    expect(() => simulateDryStart({ ...PLAIN_START, pipe: { ...riser(1), segments: [] } }, 10)).toThrow(RangeError);
    const tooSteep = riser(1).segments.map((segment) => ({ ...segment, riseM: 2 }));
    expect(() => simulateDryStart({ ...PLAIN_START, pipe: { ...riser(1), segments: tooSteep } }, 10)).toThrow(
      RangeError,
    );
  });
});
