import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trochoidSweptVolume } from '../../../analysis/displacement/trochoid.ts';
import { protrusionDepth } from '../../../analysis/outline/polygon.ts';
import { trochoidOutline, trochoidVolumeByArea } from '../../../analysis/outline/trochoid.ts';
import type { TrochoidGeometry } from '../../../analysis/records/geometry/trochoid.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function geometry(teeth: number, e: number, arcCentre: number, lobe: number, width: number): TrochoidGeometry {
  const length = (mm: number) => ({ value: mm / 1000, standardUncertainty: 10e-6 });
  return {
    kind: 'trochoid',
    innerToothCount: teeth,
    lobeTopCircleDiameterM: length(2 * (arcCentre - lobe)),
    lobeRadiusM: length(lobe),
    eccentricityM: length(e),
    widthM: length(width),
  };
}

const sixTeeth = geometry(6, 2.5, 27, 8, 20);
const nineTeeth = geometry(9, 1.6, 30, 6, 15);
const fourTeeth = geometry(4, 3, 25, 7, 20);

function rotors(of: TrochoidGeometry, shaftAngleRad: number, pointsPerTurn: number) {
  const [outer, inner] = accepted(trochoidOutline(of, shaftAngleRad, pointsPerTurn));
  if (outer === undefined || inner === undefined) throw new Error('parts');
  return { outer: outer.outline, inner: inner.outline };
}

describe('the outline of a trochoid rotor set', () => {
  it('has the radii of its lengths', () => {
    // By hand: inner rotor 27 − 8 ± 2.5 = 16.5 to 21.5 mm; 30 − 6 ± 1.6 = 22.4 to 25.6 mm.
    for (const [of, root, tip] of [
      [sixTeeth, 0.0165, 0.0215],
      [nineTeeth, 0.0224, 0.0256],
    ] as const) {
      const radii = rotors(of, 0.3, 720).inner.map(({ xM, yM }) => Math.hypot(xM, yM));
      expectRelative(Math.min(...radii), root, 1e-5);
      expectRelative(Math.max(...radii), tip, 1e-5);
    }
    const { outer } = rotors(sixTeeth, 0, 720);
    // Outer rotor about its axis, 2.5 mm to the left: lobes at 19 mm, hollows as far as the inner tips, 24 mm.
    const outerRadii = outer.map(({ xM, yM }) => Math.hypot(xM + 0.0025, yM));
    expectRelative(Math.min(...outerRadii), 0.019, 1e-6);
    expectRelative(Math.max(...outerRadii), 0.024, 1e-6);
  });

  it('never overlaps, all through a turn (seed 51)', () => {
    // 1 µm on rotors of 50 mm; chords of 1000 points a turn.
    fc.assert(
      fc.property(
        fc.constantFrom(sixTeeth, nineTeeth, fourTeeth),
        fc.double({ min: 0, max: 2 * Math.PI, noNaN: true }),
        (of, shaftAngleRad) => {
          const { outer, inner } = rotors(of, shaftAngleRad, 1000);
          expect(protrusionDepth(inner, outer)).toBeLessThan(1e-6);
        },
      ),
      { seed: 51, numRuns: 25 },
    );
  });

  it('gives the swept volume of the closed formula by the areas of its chambers', () => {
    // Two routes: N b (A_max − A_min) on the outlines, and the line-of-action integral. By an independent calculation,
    // derived, no outside source, A_max − A_min = 96.958147 mm² for six teeth.
    expectRelative(accepted(trochoidVolumeByArea(sixTeeth)), 6 * 0.02 * 96.958147e-6, 1e-6);
    for (const of of [sixTeeth, nineTeeth, fourTeeth]) {
      const closed = accepted(trochoidSweptVolume(of)).sweptVolume.value;
      expectRelative(accepted(trochoidVolumeByArea(of)), closed, 1e-6);
    }
  });

  it('is refused with the reason that the swept volume is refused with', () => {
    const steep = geometry(6, 5, 27, 8, 20);
    expect(trochoidOutline(steep, 0)).toMatchObject({ ok: false, reason: { code: 'UNDERCUT_LOBES' } });
    expect(trochoidVolumeByArea(steep)).toMatchObject({ ok: false, reason: { code: 'UNDERCUT_LOBES' } });
  });
});
