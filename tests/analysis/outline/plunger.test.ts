import { describe, expect, it } from 'vitest';
import { pistonsOut, plungerOutline } from '../../../analysis/outline/plunger.ts';
import { distanceToOutline, overlapDepth, polygonArea } from '../../../analysis/outline/polygon.ts';
import type { PlungerGeometry } from '../../../analysis/records/geometry/plunger.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { measured, swept } from '../../support/sweptGeometry.ts';

const geometry: PlungerGeometry = {
  kind: 'plunger',
  pistonCount: 9,
  pistonDiameterM: measured(0.02),
  pitchCircleDiameterM: measured(0.07),
  swashAngleRad: measured(Math.PI / 10),
};

describe('the pistons of an axial piston pump', () => {
  it('push, each with its own area, the swept volume forward in a turn', () => {
    // Second route: areas of the polygons times what each piston goes in, step by step over a turn.
    const areas = plungerOutline(geometry, 0, 8000).map(({ outline }) => polygonArea(outline));
    const steps = 3600;
    let volume = 0;
    for (let step = 0; step < steps; step += 1) {
      const before = pistonsOut(geometry, (2 * Math.PI * step) / steps);
      const after = pistonsOut(geometry, (2 * Math.PI * (step + 1)) / steps);
      for (const [index, area] of areas.entries()) {
        volume += area * Math.max(0, (before[index] ?? Number.NaN) - (after[index] ?? Number.NaN));
      }
    }
    expectRelative(volume, swept(geometry).sweptVolume.value, 1e-6);
  });

  it('stand on their circle, apart from each other', () => {
    const parts = plungerOutline(geometry, 0.2);
    expect(parts).toHaveLength(9);
    for (const [index, { outline }] of parts.entries()) {
      expect(overlapDepth(outline, parts.at(index - 1)?.outline ?? [])).toBe(0);
      // By hand: 35 − 10 mm from the shaft's axis to the nearest point.
      expectRelative(distanceToOutline(outline, { xM: 0, yM: 0 }), 0.025, 1e-4);
    }
  });
});
