import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { lobeSweptVolume } from '../../../analysis/displacement/lobe.ts';
import { lobeOutline, lobeVolumeByArea } from '../../../analysis/outline/lobe.ts';
import { overlapDepth, polygonArea, protrusionDepth } from '../../../analysis/outline/polygon.ts';
import type { LobeGeometry } from '../../../analysis/records/geometry/lobe.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function geometry(lobeCount: number, tipDiameterMm = 60 * (1 + 1 / lobeCount)): LobeGeometry {
  const length = (mm: number) => ({ value: mm / 1000, standardUncertainty: 20e-6 });
  return {
    kind: 'lobe',
    lobeCount,
    tipDiameterM: length(tipDiameterMm),
    centreDistanceM: length(60),
    widthM: length(50),
  };
}

function parts(of: LobeGeometry, shaftAngleRad: number, pointsPerTurn: number) {
  const [casing, driver, driven] = accepted(lobeOutline(of, shaftAngleRad, pointsPerTurn));
  if (casing === undefined || driver === undefined || driven === undefined) throw new Error('parts');
  return { casing: casing.outline, driver: driver.outline, driven: driven.outline };
}

describe('the outline of a lobe pump', () => {
  it('has rotors of the area of cycloids', () => {
    // Epicycloid and hypocycloid geometry, derived: two lobes on 30 mm have 3 180.86256 mm²; chords take a little off.
    expectRelative(polygonArea(parts(geometry(2), 0.4, 3600).driver), 3180.86256e-6, 1e-5);
  });

  it('never overlaps, all through a turn (seed 52)', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 4 }),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        (lobeCount, shaftAngleRad) => {
          const { casing, driver, driven } = parts(geometry(lobeCount), shaftAngleRad, 1000);
          expect(overlapDepth(driver, driven)).toBeLessThan(1e-6);
          // Rotors without clearance touch the casing; its chords stand inside its true line by less than 1 µm.
          expect(protrusionDepth(driver, casing)).toBeLessThan(1e-6);
        },
      ),
      { seed: 52, numRuns: 20 },
    );
  });

  it('shows tips that were measured lower cut back', () => {
    const { driver } = parts(geometry(2, 88), 0, 1000);
    expectRelative(Math.max(...driver.map(({ xM, yM }) => Math.hypot(xM, yM))), 0.044, 1e-12);
  });

  it('gives the swept volume of the closed formula by the area of its rotors', () => {
    // Two routes: π r_a² less the area inside the drawn cycloids, and the closed formula; two lobes: 318 086.256 mm³.
    expectRelative(accepted(lobeVolumeByArea(geometry(2))), 318086.256e-9, 1e-7);
    for (const lobeCount of [2, 3, 4]) {
      const closed = accepted(lobeSweptVolume(geometry(lobeCount))).sweptVolume.value;
      expectRelative(accepted(lobeVolumeByArea(geometry(lobeCount))), closed, 1e-7);
    }
  });

  it('is refused with the reason that the swept volume is refused with', () => {
    expect(lobeOutline(geometry(2, 80), 0)).toMatchObject({ ok: false, reason: { code: 'PROFILE_NOT_NOMINAL' } });
    expect(lobeVolumeByArea(geometry(2, 92))).toMatchObject({ ok: false, reason: { code: 'TIP_INTERFERENCE' } });
  });
});
