import { describe, expect, it } from 'vitest';
import { type ScrewPair, screwPairOpenArea, threadInterference } from '../../../analysis/displacement/twinScrew.ts';
import { openArea } from '../../../analysis/outline/outlinePart.ts';
import { polygonArea } from '../../../analysis/outline/polygon.ts';
import { twinScrewOutline } from '../../../analysis/outline/twinScrew.ts';
import type { TwinScrewGeometry } from '../../../analysis/records/geometry/twinScrew.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { outlineNamed } from '../../support/outlineNamed.ts';
import { overlapArea } from '../../support/overlapArea.ts';
import { measured, swept } from '../../support/sweptGeometry.ts';

/** D = 100, d = 70 mm, 85 mm apart. */
function geometry(startCount: number): TwinScrewGeometry {
  return {
    kind: 'twinScrew',
    startCount,
    outerDiameterM: measured(0.1),
    rootDiameterM: measured(0.07),
    runningCentreDistanceM: measured(0.085),
    leadM: measured(0.05),
  };
}

function pair(startCount: number): ScrewPair {
  return { startCount, outerRadiusM: 0.05, rootRadiusM: 0.035, centreDistanceM: 0.085 };
}

describe('the cross-section of twin screws', () => {
  it('leaves an open area that makes the swept volume', () => {
    // Second route: areas of the polygons, where screws cover each other counted twice as in the formula.
    for (const startCount of [1, 2, 3]) {
      for (const shaftAngleRad of [0, 0.7, 2]) {
        const area = openArea(twinScrewOutline(geometry(startCount), shaftAngleRad, 8000));
        expectRelative(area * 0.05, swept(geometry(startCount)).sweptVolume.value, 1e-6);
      }
    }
  });

  it('stands in itself by the interference that is said, averaged over a turn', () => {
    // Second route: overlap of the two polygons, line by line, at 60 angles of a turn of the pattern.
    for (const startCount of [1, 2]) {
      const angles = 60;
      let sum = 0;
      for (let index = 0; index < angles; index += 1) {
        const shaftAngleRad = (2 * Math.PI * (index + 0.5)) / angles / startCount;
        const parts = twinScrewOutline(geometry(startCount), shaftAngleRad, 720);
        // The cusps of the bores stand √(50² − 42.5²) = 26.34 mm above and below the axes.
        const screws = [outlineNamed(parts, 'driver'), outlineNamed(parts, 'driven screw')] as const;
        sum += overlapArea(...screws, -0.02635, 0.02635, 150);
      }
      expectRelative(sum / angles, threadInterference(pair(startCount)), 0.02);
    }
    // 0.06 % of the oil space for one start: small, but never nothing.
    expect(threadInterference(pair(1)) / screwPairOpenArea(pair(1))).toBeGreaterThan(1e-4);
  });

  it('is to scale, and its screws stay inside the housing', () => {
    const parts = twinScrewOutline(geometry(2), 1.1, 8000);
    expect(parts.map(({ name }) => name)).toEqual(['housing', 'driver', 'driven screw']);
    // By hand: half an annulus and the root circle, (π/8)(100² + 70²) mm².
    for (const name of ['driver', 'driven screw']) {
      expectRelative(polygonArea(outlineNamed(parts, name)), (Math.PI / 8) * (0.1 ** 2 + 0.07 ** 2), 1e-6);
    }
    for (const { xM, yM } of outlineNamed(parts, 'driven screw')) {
      expect(Math.hypot(xM - 0.085, yM)).toBeLessThan(0.05 * (1 + 1e-9));
    }
  });

  it('sets a groove of the driven screw against each land of the driver', () => {
    // By hand: at angle 0 the driver's land faces the driven screw, whose nearest point is its root, 85 − 35 = 50 mm away.
    const parts = twinScrewOutline(geometry(3), 0);
    const nearest = Math.min(
      ...outlineNamed(parts, 'driven screw').map(({ xM, yM }) => (Math.abs(yM) < 1e-3 ? xM : 1)),
    );
    expectRelative(nearest, 0.05, 1e-6);
    expectRelative(Math.max(...outlineNamed(parts, 'driver').map(({ xM }) => xM)), 0.05, 1e-6);
  });
});
