import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { externalGearSweptVolume } from '../../../analysis/displacement/externalGear.ts';
import type { GeometryRefusal, SweptVolume } from '../../../analysis/displacement/geometryResult.ts';
import { internalGearSweptVolume } from '../../../analysis/displacement/internalGear.ts';
import { lobeSweptVolume } from '../../../analysis/displacement/lobe.ts';
import { trochoidSweptVolume } from '../../../analysis/displacement/trochoid.ts';
import type { Outcome } from '../../../analysis/outcome.ts';
import { externalGearOutline } from '../../../analysis/outline/externalGear.ts';
import { internalGearOutline } from '../../../analysis/outline/internalGear.ts';
import { lobeOutline } from '../../../analysis/outline/lobe.ts';
import type { OutlinePart } from '../../../analysis/outline/outlinePart.ts';
import { trochoidOutline } from '../../../analysis/outline/trochoid.ts';

const length = fc.double({ min: 1e-4, max: 0.2, noNaN: true }).map((value) => ({ value, standardUncertainty: 1e-5 }));
const teeth = fc.integer({ min: 5, max: 40 });
const cutter = {
  moduleM: fc.double({ min: 5e-4, max: 0.02, noNaN: true }),
  pressureAngleRad: fc.double({ min: 0.2, max: 0.6, noNaN: true }),
};
const mesh = { hasReliefGrooves: fc.boolean(), backlashM: fc.constant({ value: 1e-4, standardUncertainty: 1e-5 }) };

/** A volume above zero in finite numbers, or a refusal in finite numbers; the drawing follows. */
function expectSound(
  swept: Outcome<SweptVolume, GeometryRefusal>,
  drawn: Outcome<readonly OutlinePart[], GeometryRefusal>,
): void {
  expect(drawn.ok).toBe(swept.ok);
  if (!swept.ok) {
    expect(swept.reason).toMatchObject({ value: expect.any(Number), limit: expect.any(Number) });
    expect([swept.reason.value, swept.reason.limit].every(Number.isFinite)).toBe(true);
    expect(swept.reason.text).not.toMatch(/NaN|Infinity/);
    return;
  }
  const { sweptVolume, flowRipple } = swept.value;
  expect(sweptVolume.value).toBeGreaterThan(0);
  expect([sweptVolume.value, flowRipple ?? 0, ...Object.values(sweptVolume.sensitivities)].every(Number.isFinite)).toBe(
    true,
  );
  if (!drawn.ok) return;
  const coordinates = drawn.value.flatMap(({ outline }) => outline.flatMap(({ xM, yM }) => [xM, yM]));
  expect(coordinates.every(Number.isFinite)).toBe(true);
}

describe('lengths drawn at random, most of them of no possible pump', () => {
  it('give external gears a volume or a reason, never a NaN (seed 53)', () => {
    const geometry = fc.record({
      kind: fc.constant('externalGear' as const),
      toothCount: fc.record({ driver: teeth, driven: teeth }),
      ...cutter,
      tipDiameterM: length,
      drivenTipDiameterM: length,
      runningCentreDistanceM: length,
      faceWidthM: length,
      ...mesh,
      tipClearanceM: length,
      endFloatM: length,
    });
    fc.assert(
      fc.property(geometry, (of) => expectSound(externalGearSweptVolume(of), externalGearOutline(of, 0.3, 60))),
      { seed: 53, numRuns: 300 },
    );
  });

  it('give near-possible external and internal gears a volume or a reason (seed 54)', () => {
    // Around standard gears: addendum 0.5 to 1.6 modules, centre distance within 15 %.
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(teeth, teeth, share, share, share, (driver, driven, first, second, spread) => {
        const exact = (value: number) => ({ value, standardUncertainty: 1e-5 });
        const tip = (count: number, addendum: number): number => 0.003 * (count + 2 * addendum);
        const common = {
          moduleM: 0.003,
          pressureAngleRad: Math.PI / 9,
          faceWidthM: exact(0.02),
          hasReliefGrooves: true,
        };
        const external = {
          ...common,
          kind: 'externalGear' as const,
          toothCount: { driver, driven },
          tipDiameterM: exact(tip(driver, 0.5 + 1.1 * first)),
          drivenTipDiameterM: exact(tip(driven, 0.5 + 1.1 * second)),
          runningCentreDistanceM: exact(0.0015 * (driver + driven) * (0.95 + 0.15 * spread)),
          backlashM: exact(0),
          tipClearanceM: exact(4e-5),
          endFloatM: exact(4e-5),
        };
        expectSound(externalGearSweptVolume(external), externalGearOutline(external, 0.3, 60));
        const ring = driver + 1 + driven;
        const internal = {
          ...common,
          kind: 'internalGear' as const,
          toothCount: { pinion: driver, ring },
          pinionTipDiameterM: exact(tip(driver, 0.5 + 1.1 * first)),
          ringTipDiameterM: exact(tip(ring, -0.3 - 1.1 * second)),
          runningCentreDistanceM: exact(0.0015 * (ring - driver) * (0.95 + 0.15 * spread)),
          backlashM: exact(0),
        };
        expectSound(internalGearSweptVolume(internal), internalGearOutline(internal, 0.3, 60));
      }),
      { seed: 54, numRuns: 300 },
    );
  });

  it('give trochoid and lobe rotors a volume or a reason (seed 55)', () => {
    const trochoid = fc.record({
      kind: fc.constant('trochoid' as const),
      innerToothCount: fc.integer({ min: 3, max: 15 }),
      lobeTopCircleDiameterM: length,
      lobeRadiusM: length,
      eccentricityM: length.map(({ value }) => ({ value: value / 20, standardUncertainty: 1e-5 })),
      widthM: length,
    });
    const lobe = fc.record({
      kind: fc.constant('lobe' as const),
      lobeCount: fc.integer({ min: 2, max: 6 }),
      tipDiameterM: length,
      centreDistanceM: length,
      widthM: length,
    });
    fc.assert(
      fc.property(trochoid, lobe, (trochoidOf, lobeOf) => {
        expectSound(trochoidSweptVolume(trochoidOf), trochoidOutline(trochoidOf, 0.3, 60));
        expectSound(lobeSweptVolume(lobeOf), lobeOutline(lobeOf, 0.3, 60));
      }),
      { seed: 55, numRuns: 300 },
    );
  });
});
