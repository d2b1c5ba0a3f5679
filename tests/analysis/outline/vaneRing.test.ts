import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { overlapDepth, polygonArea } from '../../../analysis/outline/polygon.ts';
import { vaneRingOutline } from '../../../analysis/outline/vaneRing.ts';
import type { VaneRingGeometry } from '../../../analysis/records/geometry/vaneRing.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { outlineNamed } from '../../support/outlineNamed.ts';
import { measured, swept } from '../../support/sweptGeometry.ts';
import { wedgeArea } from '../../support/wedgeArea.ts';

const geometry: VaneRingGeometry = {
  kind: 'vaneRing',
  vaneCount: 9,
  ringDiameterM: measured(0.075),
  rotorDiameterM: measured(0.058),
  eccentricityM: measured(0.008),
  ringWidthM: measured(0.05),
  vaneThicknessM: measured(0.002),
  underVanesDeliver: true,
};

/** Area of a chamber between the middles of two vanes, whose own middle stands at an angle, by the outlines [m²]. */
function chamberArea(of: VaneRingGeometry, middleRad: number): number {
  const halfPitchRad = Math.PI / of.vaneCount;
  const parts = vaneRingOutline(of, middleRad + halfPitchRad, 8000);
  const [from, to] = [middleRad - halfPitchRad, middleRad + halfPitchRad];
  const between = wedgeArea(outlineNamed(parts, 'ring'), from, to) - wedgeArea(outlineNamed(parts, 'rotor'), from, to);
  if (of.underVanesDeliver) return between;
  // Half of each of its two vanes; they stand out alike.
  const [tip] = outlineNamed(parts, 'vane 1');
  if (tip === undefined) throw new Error('the vane has no tip');
  return between - of.vaneThicknessM.value * (Math.hypot(tip.xM, tip.yM) - of.rotorDiameterM.value / 2);
}

describe('the outline of a vane ring', () => {
  it('has chambers whose widest less narrowest make the swept volume', () => {
    // Second route: areas between the polygons, z b (A_max − A_min).
    for (const vaneCount of [8, 9, 12]) {
      for (const underVanesDeliver of [true, false]) {
        const of = { ...geometry, vaneCount, underVanesDeliver };
        const volume = vaneCount * of.ringWidthM.value * (chamberArea(of, 0) - chamberArea(of, Math.PI));
        expectRelative(volume, swept(of).sweptVolume.value, 1e-6);
      }
    }
  });

  it('is to scale: ring, rotor and vanes have the areas measured', () => {
    // By hand: circles; a vane's length is drawn.
    const parts = vaneRingOutline(geometry, 0.3, 8000);
    expect(parts.map(({ name }) => name).slice(0, 3)).toEqual(['ring', 'rotor', 'vane 1']);
    expect(parts).toHaveLength(11);
    expectRelative(polygonArea(outlineNamed(parts, 'ring')), (Math.PI / 4) * 0.075 ** 2, 2e-7);
    expectRelative(polygonArea(outlineNamed(parts, 'rotor')), (Math.PI / 4) * 0.058 ** 2, 2e-7);
    for (const { outline } of parts) expect(polygonArea(outline)).toBeGreaterThan(0);
  });

  it('never has a vane or the rotor in the ring (seed 71)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -7, max: 7, noNaN: true }),
        fc.double({ min: 0.001, max: 0.0085, noNaN: true }),
        (shaftAngleRad, eccentricityM) => {
          const of = { ...geometry, eccentricityM: measured(eccentricityM) };
          const [ring, ...metal] = vaneRingOutline(of, shaftAngleRad);
          for (const point of metal.flatMap(({ outline }) => outline)) {
            const reachM = Math.hypot(point.xM - eccentricityM, point.yM);
            expect(reachM).toBeLessThan(0.0375 * (1 + 1e-9));
          }
          const vanes = metal.slice(1).map(({ outline }) => outline);
          for (const [index, vane] of vanes.entries()) expect(overlapDepth(vane, vanes.at(index - 1) ?? [])).toBe(0);
          expect(ring?.encloses).toBe('bore');
        },
      ),
      { seed: 71, numRuns: 25 },
    );
  });
});
