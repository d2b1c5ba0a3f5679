import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { GearMesh } from '../../../analysis/displacement/gearMesh.ts';
import { meshTeeth } from '../../../analysis/displacement/meshTeeth.ts';
import { involuteHalfAngle, toothHalfAngle } from '../../../analysis/displacement/tooth.ts';
import { externalGearOutline } from '../../../analysis/outline/externalGear.ts';
import { gearOutlines } from '../../../analysis/outline/gearOutlines.ts';
import { internalGearOutline } from '../../../analysis/outline/internalGear.ts';
import {
  distanceToOutline,
  isInside,
  overlapDepth,
  polygonArea,
  protrusionDepth,
} from '../../../analysis/outline/polygon.ts';
import { toothedOutline } from '../../../analysis/outline/toothedOutline.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INTERNAL_GEARS } from '../../support/internalGearPump.ts';
import { CUT_BACK_RING, LONG_TIPS, meshOf, SPREAD, TWELVE_TEETH, UNEQUAL } from '../../support/meshOf.ts';
import { samplePump } from '../../support/samples.ts';

/** How far the metal of both gears overlaps [m]. */
function overlapM(mesh: GearMesh, shaftAngleRad: number, pointsPerFlank: number): number {
  const { driver, driven } = accepted(gearOutlines(mesh, 0, shaftAngleRad, pointsPerFlank));
  return mesh.kind === 'internal' ? protrusionDepth(driver, driven) : overlapDepth(driver, driven);
}

describe('a toothed outline', () => {
  const { driver } = accepted(meshTeeth(meshOf(TWELVE_TEETH), 0));

  it('has teeth as thick as the standard has them', () => {
    // By hand, m = 3 mm, 12 teeth, no shift: half a pitch on the pitch circle, π/24 either way; at the tip 2 · 21 ·
    // (π/24 + inv 20° − inv arccos(16.914467/21)) = 42 (0.130900 + 0.014904 − 0.101455) = 1.8627 mm.
    expectRelative(toothHalfAngle(driver, 0.018), Math.PI / 24, 1e-12);
    expectRelative(42 * toothHalfAngle(driver, 0.021), 1.8627, 1e-4);
    // Radial below the base circle, the space 1.25 modules deep.
    expect(toothHalfAngle(driver, 0.015)).toBe(toothHalfAngle(driver, 0.0165));
    expectRelative(driver.innerRadiusM, 0.01425, 1e-12);
  });

  it('runs counter-clockwise between its root and tip circles, alike after every pitch', () => {
    const outline = toothedOutline(driver, 0.1, 20);
    expect(polygonArea(outline)).toBeGreaterThan(Math.PI * 0.01425 ** 2);
    for (const { xM, yM } of outline) {
      expect(Math.hypot(xM, yM)).toBeGreaterThan(0.01425 - 1e-12);
      expect(Math.hypot(xM, yM)).toBeLessThan(0.021 + 1e-12);
    }
    const onward = toothedOutline(driver, 0.1 + Math.PI / 6, 20);
    for (const point of onward) expect(distanceToOutline(outline, point)).toBeLessThan(1e-12);
    expect(() => toothedOutline(driver, 0, 1)).toThrow(RangeError);
  });

  it('is thinner by its half of the backlash', () => {
    // By hand: 0.1 mm along a pitch circle of 18 mm, half of it from each gear, half of that from each flank.
    const thinned = accepted(meshTeeth(meshOf(TWELVE_TEETH), 1e-4)).driver;
    expectRelative(toothHalfAngle(driver, 0.018) - toothHalfAngle(thinned, 0.018), 0.25e-4 / 0.018, 1e-9);
  });

  it('is relieved where a mating tip reaches below the involute, and only there', () => {
    // UNEQUAL: tips of 24 mm reach √(24² − 19.7335²) = 13.66 mm along the line of action, past 36 sin 20° = 12.31 mm.
    const teeth = accepted(meshTeeth(meshOf(UNEQUAL), 0));
    expect(toothHalfAngle(teeth.driver, 0.0138)).toBeLessThan(involuteHalfAngle(teeth.driver, 0.0138));
    expect(toothHalfAngle(teeth.driver, 0.016)).toBe(involuteHalfAngle(teeth.driver, 0.016));
  });
});

describe('two gears in mesh', () => {
  it('never overlap, all through a mesh (seed 50)', () => {
    // 1 µm on gears of 40 mm: the chords of 40 points a flank stand off the true line by less.
    fc.assert(
      fc.property(
        fc.constantFrom(TWELVE_TEETH, LONG_TIPS, UNEQUAL, SPREAD, CUT_BACK_RING),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (gears, turn) => {
          const mesh = meshOf(gears);
          expect(overlapM(mesh, (2 * Math.PI * turn) / mesh.driver.toothCount, 40)).toBeLessThan(1e-6);
        },
      ),
      { seed: 50, numRuns: 40 },
    );
  });

  it('touch on the line of action, on the driving flank', () => {
    // Second route: contacts are where the line tangent to both base circles says, half a base pitch either side of the
    // pitch point, when the driver stands half a tooth pitch past contact at the pitch point.
    for (const gears of [TWELVE_TEETH, SPREAD, CUT_BACK_RING]) {
      const mesh = meshOf(gears);
      const { driver } = accepted(meshTeeth(mesh, 0));
      const { pitchRadiusM, toothCount } = mesh.driver;
      const shaftAngleRad = Math.PI / toothCount - toothHalfAngle(driver, pitchRadiusM);
      const outlines = accepted(gearOutlines(mesh, 0, shaftAngleRad, 200));
      for (const sM of [-mesh.basePitchM / 2, mesh.basePitchM / 2]) {
        const contact = {
          xM: pitchRadiusM + sM * Math.sin(mesh.runningAngleRad),
          yM: sM * Math.cos(mesh.runningAngleRad),
        };
        expect(distanceToOutline(outlines.driver, contact)).toBeLessThan(1e-7);
        expect(distanceToOutline(outlines.driven, contact)).toBeLessThan(1e-7);
      }
    }
  });
});

describe('the drawing of a gear pump', () => {
  it('shows casing, driver and driven gear of an external gear pump, apart by their backlash', () => {
    const { geometry } = samplePump('dredger-feed-pump');
    if (geometry.kind !== 'externalGear') throw new Error('sample');
    for (const shaftAngleRad of [0, 0.13, 0.4]) {
      const parts = accepted(externalGearOutline(geometry, shaftAngleRad));
      expect(parts.map(({ name, encloses }) => `${name}: ${encloses}`)).toEqual([
        'casing: bore',
        'driver: metal',
        'driven gear: metal',
      ]);
      const [casing, driver, driven] = parts.map(({ outline }) => outline);
      if (casing === undefined || driver === undefined || driven === undefined) throw new Error('parts');
      expect(overlapDepth(driver, driven)).toBe(0);
      // The casing stands off the tips by the tip clearance, 0.15 mm, chords of 360 points by less than 1 µm.
      for (const gear of [driver, driven]) {
        expect(protrusionDepth(gear, casing)).toBe(0);
        const nearest = Math.min(...gear.map((point) => distanceToOutline(casing, point)));
        expect(Math.abs(nearest - 150e-6)).toBeLessThan(2e-6);
      }
    }
  });

  it('shows ring, pinion and crescent of an internal gear pump, none in the way of another', () => {
    const parts = accepted(internalGearOutline(INTERNAL_GEARS, 0.2));
    expect(parts.map(({ name }) => name)).toEqual(['ring', 'pinion', 'crescent']);
    const [ring, pinion, crescent] = parts.map(({ outline }) => outline);
    if (ring === undefined || pinion === undefined || crescent === undefined) throw new Error('parts');
    expect(protrusionDepth(pinion, ring)).toBe(0);
    expect(protrusionDepth(crescent, ring)).toBeLessThan(2e-6);
    expect(overlapDepth(crescent, pinion)).toBeLessThan(2e-6);
    expect(polygonArea(crescent)).toBeGreaterThan(0);
    // By hand: opposite the mesh the gap runs from −22.5 to −(27 + 9) = −36 mm.
    expect(isInside(crescent, { xM: -0.0226, yM: 0 })).toBe(true);
    expect(isInside(crescent, { xM: -0.0359, yM: 0 })).toBe(true);
  });

  it('is refused with the reason that the swept volume is refused with', () => {
    const { geometry } = samplePump('dredger-feed-pump');
    if (geometry.kind !== 'externalGear') throw new Error('sample');
    const pointed = { ...geometry, tipDiameterM: { value: 0.045, standardUncertainty: 0 } };
    expect(externalGearOutline(pointed, 0)).toMatchObject({ ok: false, reason: { code: 'POINTED_TOOTH' } });
  });
});
