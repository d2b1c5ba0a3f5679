import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gearSweptVolume } from '../../../analysis/displacement/gearMesh.ts';
import { gearAreas, gearVolumeByArea } from '../../../analysis/outline/gearVolumeByArea.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { integral } from '../../support/integral.ts';
import {
  CUT_BACK_RING,
  FOURTEEN_TEETH,
  LONG_TIPS,
  meshOf,
  RING_OF_NINETEEN,
  SPREAD,
  TWELVE_TEETH,
  UNEQUAL,
} from '../../support/meshOf.ts';

const SQUARE_MM = 1e-6;

describe('the areas between two gears', () => {
  it('are what an independent calculation of the same outlines gave', () => {
    // m = 3 mm, 12 + 12 teeth, 20°, dedendum 1.25 m, radial flanks below the base circle, no backlash: derived, no
    // outside source; an independent numerical method gave A_s = 34.34817, A_trapped = 10.85769 mm², V = 13 881.2766 mm³.
    const mesh = meshOf(TWELVE_TEETH);
    const areas = accepted(gearAreas(mesh));
    expect(Math.abs(areas.driverSpaceM2 - 34.34817 * SQUARE_MM)).toBeLessThan(2e-4 * SQUARE_MM);
    expect(Math.abs(areas.drivenSpaceM2 - 34.34817 * SQUARE_MM)).toBeLessThan(2e-4 * SQUARE_MM);
    expect(Math.abs(areas.trappedM2 - 10.85769 * SQUARE_MM)).toBeLessThan(2e-4 * SQUARE_MM);
    expectRelative(accepted(gearVolumeByArea(mesh, 0.02)), 13881.2766e-9, 1e-6);
    // Spaces alone, 2 z A_s b = 16 487 mm³, would be 18.8 % too much.
    expectRelative(24 * 0.02 * areas.driverSpaceM2, 16487e-9, 1e-4);
    expectRelative((24 * 0.02 * areas.driverSpaceM2) / gearSweptVolume(mesh, 0.02), 1.188, 5e-4);
  });

  it('are those of the involute, integrated by radius and along the flank', () => {
    // Third route [mm]: gaps between the flanks over the radius; between the contacts the quadrilateral of contacts and
    // centres less a pitch of each gear, corrected along the flank (½ ∫ r² d inv α = r_b² tan³α/6).
    const [teeth, tip, pitch, root] = [12, 21, 18, 14.25];
    const angle = Math.PI / 9;
    const base = pitch * Math.cos(angle);
    const inv = (at: number): number => Math.tan(at) - at;
    const halfTooth = (r: number): number =>
      Math.PI / (2 * teeth) + inv(angle) - (r > base ? inv(Math.acos(base / r)) : 0);
    const gap = (r: number): number => ((2 * Math.PI) / teeth - 2 * halfTooth(r)) * r;
    const space = integral(gap, root, base) + integral(gap, base, tip);
    const halfPitch = (Math.PI * 3 * Math.cos(angle)) / 2;
    const onFlank = (s: number): number => (base ** 2 / 6) * (Math.tan(angle) + s / base) ** 3;
    const gearSector = (Math.PI * tip ** 2) / teeth - space - (onFlank(halfPitch) - onFlank(-halfPitch));
    const trapped = 2 * pitch * halfPitch * Math.cos(angle) - 2 * gearSector;
    const areas = accepted(gearAreas(meshOf(TWELVE_TEETH)));
    expectRelative(areas.driverSpaceM2, space * SQUARE_MM, 1e-5);
    expectRelative(areas.trappedM2, trapped * SQUARE_MM, 1e-5);
  });

  it('give the swept volume of the closed formula, with equal, shifted, unequal and internal gears', () => {
    // Two routes that share no formula: areas of the outlines, and the mean of the instantaneous flow.
    for (const gears of [TWELVE_TEETH, FOURTEEN_TEETH, LONG_TIPS, UNEQUAL, SPREAD, CUT_BACK_RING]) {
      const mesh = meshOf(gears);
      expectRelative(accepted(gearVolumeByArea(mesh, 0.02)), gearSweptVolume(mesh, 0.02), 1e-6);
    }
  });

  it('grow with the square of the size (seed 49)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.2, max: 10, noNaN: true }), (scale) => {
        expectRelative(
          accepted(gearVolumeByArea(meshOf(SPREAD, scale), 0.02 * scale)),
          scale ** 3 * accepted(gearVolumeByArea(meshOf(SPREAD), 0.02)),
          1e-9,
        );
      }),
      { seed: 49, numRuns: 5 },
    );
  });

  it('are not there for tips that run into each other', () => {
    expect(gearAreas(meshOf(RING_OF_NINETEEN))).toMatchObject({ ok: false, reason: { code: 'TIP_INTERFERENCE' } });
    expect(gearVolumeByArea(meshOf(RING_OF_NINETEEN), 0.02)).toMatchObject({ ok: false });
  });
});
