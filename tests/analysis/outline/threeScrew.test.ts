import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { openArea } from '../../../analysis/outline/outlinePart.ts';
import { overlapDepth, polygonArea } from '../../../analysis/outline/polygon.ts';
import { threeScrewOutline } from '../../../analysis/outline/threeScrew.ts';
import type { ThreeScrewGeometry } from '../../../analysis/records/geometry/threeScrew.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { outlineNamed } from '../../support/outlineNamed.ts';
import { measured, swept } from '../../support/sweptGeometry.ts';

const geometry: ThreeScrewGeometry = {
  kind: 'threeScrew',
  powerDiameterM: measured(0.05),
  idlerDiameterM: measured(0.03),
  leadM: measured(0.1),
};

describe('the cross-section of three screws', () => {
  it('leaves an open area that makes the swept volume', () => {
    // Second route: areas of the polygons. An independent polygon calculation gave 3.36761738 d² for the housing and
    // 1.25187266 d² for the oil.
    for (const shaftAngleRad of [0, 0.4, 1.9]) {
      const parts = threeScrewOutline(geometry, shaftAngleRad, 8000);
      expectRelative(polygonArea(outlineNamed(parts, 'housing')), 3.36761738 * 0.03 ** 2, 1e-6);
      expectRelative(openArea(parts), 1.25187266 * 0.03 ** 2, 1e-6);
      expectRelative(openArea(parts) * 0.1, swept(geometry).sweptVolume.value, 1e-6);
    }
  });

  it('never has a screw in another (seed 74)', () => {
    // Only the chords of the drawing stand in each other: 720 points a turn are within 1e-5 of the circles.
    fc.assert(
      fc.property(fc.double({ min: -7, max: 7, noNaN: true }), (shaftAngleRad) => {
        const parts = threeScrewOutline(geometry, shaftAngleRad, 720);
        const power = outlineNamed(parts, 'power screw');
        for (const name of ['idler on the right', 'idler on the left']) {
          expect(overlapDepth(power, outlineNamed(parts, name))).toBeLessThan(1e-4 * 0.03);
        }
      }),
      { seed: 74, numRuns: 12 },
    );
  });

  it('keeps its screws inside their bores', () => {
    const parts = threeScrewOutline(geometry, 0.8);
    expect(parts.map(({ name }) => name)).toEqual([
      'housing',
      'power screw',
      'idler on the right',
      'idler on the left',
    ]);
    for (const [name, axisXM, radiusM] of [
      ['power screw', 0, 0.025],
      ['idler on the right', 0.03, 0.015],
      ['idler on the left', -0.03, 0.015],
    ] as const) {
      const reaches = outlineNamed(parts, name).map(({ xM, yM }) => Math.hypot(xM - axisXM, yM));
      expectRelative(Math.max(...reaches), radiusM, 1e-9);
    }
  });
});
