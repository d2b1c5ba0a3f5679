import fc from 'fast-check';
import { describe, it } from 'vitest';
import { openArea } from '../../../analysis/outline/outlinePart.ts';
import { progressingCavityOutline } from '../../../analysis/outline/progressingCavity.ts';
import type { ProgressingCavityGeometry } from '../../../analysis/records/geometry/progressingCavity.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { outlineNamed } from '../../support/outlineNamed.ts';
import { measured, swept } from '../../support/sweptGeometry.ts';

const geometry: ProgressingCavityGeometry = {
  kind: 'progressingCavity',
  eccentricityM: measured(0.004),
  rotorDiameterM: measured(0.04),
  statorPitchM: measured(0.12),
};

describe('the cross-section of a progressing cavity pump', () => {
  it('leaves the same open area at every angle, and it makes the swept volume (seed 75)', () => {
    // Second route: areas of the polygons.
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (shaftAngleRad) => {
        const area = openArea(progressingCavityOutline(geometry, shaftAngleRad, 8000));
        expectRelative(area * 0.12, swept(geometry).sweptVolume.value, 1e-6);
      }),
      { seed: 75, numRuns: 12 },
    );
  });

  it('keeps the rotor in the hollow: it fills its width and reaches both ends', () => {
    // By hand [mm]: 40 wide, 40 + 4 · 4 = 56 long.
    for (const [shaftAngleRad, rightM] of [
      [0, 0.028],
      [Math.PI / 2, 0.02],
      [Math.PI, 0.012],
    ] as const) {
      const parts = progressingCavityOutline(geometry, shaftAngleRad);
      const xs = (name: string): number[] => outlineNamed(parts, name).map(({ xM }) => xM);
      const ys = (name: string): number[] => outlineNamed(parts, name).map(({ yM }) => yM);
      expectRelative(Math.max(...xs('rotor')), rightM, 1e-9);
      expectRelative(Math.max(...xs('stator')), 0.028, 1e-9);
      expectRelative(Math.min(...xs('stator')), -0.028, 1e-9);
      expectRelative(Math.max(...ys('rotor')), Math.max(...ys('stator')), 1e-9);
    }
  });
});
