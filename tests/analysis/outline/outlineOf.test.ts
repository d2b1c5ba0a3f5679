import { describe, expect, it } from 'vitest';
import { outlineFrame, outlinePath, scaleBarLength } from '../../../analysis/outline/outlineFrame.ts';
import { outlineOf } from '../../../analysis/outline/outlineOf.ts';
import type { PumpGeometry } from '../../../analysis/records/pumpRecord.ts';
import { EXAMPLE_PUMPS } from '../../speed/examplePumps.ts';
import { accepted } from '../../support/accepted.ts';

const SHAPELESS: readonly PumpGeometry['kind'][] = ['plainThread', 'asStated', 'turnedByHand'];

describe('outlineOf', () => {
  it('draws every pump type that has a shape, in closed lines of finite points, and says so of the others', () => {
    for (const geometry of Object.values(EXAMPLE_PUMPS)) {
      const parts = outlineOf(geometry, 0.1);
      expect(parts.ok, geometry.kind).toBe(!SHAPELESS.includes(geometry.kind));
      if (!parts.ok) continue;
      expect(parts.value.length).toBeGreaterThan(1);
      for (const { outline } of parts.value) {
        expect(outline.length).toBeGreaterThan(3);
        expect(outline.every(({ xM, yM }) => Number.isFinite(xM) && Number.isFinite(yM))).toBe(true);
      }
    }
  });
});

describe('outlineFrame', () => {
  // By hand: a square of 10 mm with its lower left corner at (5, −5) mm.
  const square = [
    { xM: 0.005, yM: -0.005 },
    { xM: 0.015, yM: -0.005 },
    { xM: 0.015, yM: 0.005 },
    { xM: 0.005, yM: 0.005 },
  ];
  const frame = outlineFrame([{ name: 'square', encloses: 'metal', outline: square }]);

  it('is the smallest box around all parts', () => {
    expect(frame.leftM).toBe(0.005);
    expect(frame.bottomM).toBe(-0.005);
    expect(frame.widthM).toBeCloseTo(0.01, 12);
    expect(frame.heightM).toBeCloseTo(0.01, 12);
  });

  it('turns a closed line into a path with y pointing down', () => {
    expect(outlinePath(square, frame, 1000)).toBe('M0.00,10.00L10.00,10.00L10.00,0.00L0.00,0.00Z');
  });

  it('gives a scale bar of 1, 2 or 5 that fits into a third of the drawing', () => {
    const barOf = (widthM: number): number => scaleBarLength({ leftM: 0, bottomM: 0, widthM, heightM: 1 });
    expect(barOf(0.078)).toBeCloseTo(0.02, 12);
    expect(barOf(0.16)).toBeCloseTo(0.05, 12);
    expect(barOf(0.05)).toBeCloseTo(0.01, 12);
  });
});

it('says why impossible gears have no outline', () => {
  const gears = EXAMPLE_PUMPS.externalGear;
  const parts = outlineOf(
    { ...gears, tipDiameterM: { value: 0.9 * gears.runningCentreDistanceM.value, standardUncertainty: 0 } },
    0,
  );
  expect(parts.ok).toBe(false);
  expect(accepted(outlineOf(gears, 0)).map(({ encloses }) => encloses)).toEqual(['bore', 'metal', 'metal']);
});
