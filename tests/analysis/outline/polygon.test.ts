import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { outlineBetween } from '../../../analysis/outline/outlineBetween.ts';
import {
  distanceToOutline,
  isInside,
  moved,
  type Outline,
  overlapDepth,
  polygonArea,
  protrusionDepth,
  rotated,
} from '../../../analysis/outline/polygon.ts';
import { expectRelative } from '../../support/expectRelative.ts';

/** An L of area 3: the unit square thrice. */
const ell: Outline = [
  { xM: 0, yM: 0 },
  { xM: 2, yM: 0 },
  { xM: 2, yM: 1 },
  { xM: 1, yM: 1 },
  { xM: 1, yM: 2 },
  { xM: 0, yM: 2 },
];

function square(side: number): Outline {
  return [
    { xM: 0, yM: 0 },
    { xM: side, yM: 0 },
    { xM: side, yM: side },
    { xM: 0, yM: side },
  ];
}

describe('an outline', () => {
  it('has the area that its squares have, negative when it runs clockwise', () => {
    // By hand: three unit squares.
    expect(polygonArea(ell)).toBe(3);
    expect(polygonArea(ell.toReversed())).toBe(-3);
    expect(polygonArea([])).toBe(0);
  });

  it('keeps its area wherever it is turned and moved to (seed 48)', () => {
    const far = fc.double({ min: -50, max: 50, noNaN: true });
    fc.assert(
      fc.property(far, far, far, (angle, dx, dy) => {
        expectRelative(polygonArea(moved(rotated(ell, angle), dx, dy)), 3, 1e-12);
      }),
      { seed: 48, numRuns: 50 },
    );
    // By hand: a quarter turn takes (2, 1) to (−1, 2).
    const [, , corner] = rotated(ell, Math.PI / 2);
    expect(corner?.xM).toBeCloseTo(-1, 12);
    expect(corner?.yM).toBeCloseTo(2, 12);
  });

  it('knows what lies inside it, and how far a point is from its line', () => {
    // By hand; the notch of the L lies outside.
    expect(isInside(ell, { xM: 0.5, yM: 1.5 })).toBe(true);
    expect(isInside(ell, { xM: 1.5, yM: 1.5 })).toBe(false);
    expect(isInside(ell, { xM: 3, yM: 0.5 })).toBe(false);
    expect(distanceToOutline(ell, { xM: 0.5, yM: 1.25 })).toBe(0.5);
    expect(distanceToOutline(ell, { xM: 5, yM: 4 })).toBe(Math.hypot(3, 3));
    expect(() => distanceToOutline([], { xM: 0, yM: 0 })).toThrow(RangeError);
  });

  it('overlaps another by the depth of its deepest point', () => {
    // By hand: a unit square moved by 0.9 and 0.8 lies 0.1 deep in one of side 1; in the notch of the L it does not.
    expect(overlapDepth(square(1), moved(square(1), 0.9, 0.8))).toBeCloseTo(0.1, 12);
    expect(overlapDepth(ell, moved(square(0.8), 1.1, 1.1))).toBe(0);
    expect(overlapDepth(square(1), moved(square(1), 3, 0))).toBe(0);
  });

  it('stands out of a hole by the depth of its outermost point', () => {
    // By hand: a square of side 2 in the L covers its notch, whose inner corner lies 1 deep; 0.3 over an edge is 0.3.
    expect(protrusionDepth(square(2), ell)).toBe(1);
    expect(protrusionDepth(moved(square(1), -0.3, 0.5), ell)).toBeCloseTo(0.3, 12);
    expect(protrusionDepth(moved(square(0.8), 0.1, 0.1), ell)).toBe(0);
  });

  it('can be followed from one point on it to another, across its first point too', () => {
    // By hand.
    const [onBottom, onTop] = [
      { xM: 0.5, yM: 0 },
      { xM: 0.5, yM: 2 },
    ];
    expect(outlineBetween(ell, onBottom, onTop)).toEqual([onBottom, ...ell.slice(1, 5), onTop]);
    expect(outlineBetween(ell, onTop, onBottom)).toEqual([onTop, ell[5], ell[0], onBottom]);
  });
});
