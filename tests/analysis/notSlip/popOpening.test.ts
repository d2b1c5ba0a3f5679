import { describe, expect, it } from 'vitest';
import { leaveLine, shareGoneAtTop } from '../../../analysis/notSlip/lineOfSlip.ts';
import { popOpening, snapClosing } from '../../../analysis/notSlip/popOpening.ts';
import type { StrokePoint } from '../../../analysis/notSlip/reliefStrokes.ts';
import { expectRelative } from '../../support/expectRelative.ts';

/** Line of slip of an invented pump: 200 cm³/s without load, less by 20 cm³/s at 10 bar. */
const onLineM3PerS = (pressurePa: number): number => 2e-4 - 2e-11 * pressurePa;

/** Points a quarter second apart, from pressures and the share of the flow that a valve takes. */
function course(places: readonly (readonly [number, number])[]): readonly StrokePoint[] {
  return places.map(([differentialPressurePa, takenShare], index) => ({
    atS: index / 4,
    suctionPressurePa: 1e5,
    deliveryPressurePa: 1e5 + differentialPressurePa,
    differentialPressurePa,
    flowM3PerS: onLineM3PerS(differentialPressurePa) * (1 - takenShare),
  }));
}

/** From 1 bar up by 0.1 bar a point, with the taken share of each. */
function rising(count: number, takenShareAt: (pressurePa: number) => number): readonly (readonly [number, number])[] {
  return Array.from({ length: count }, (_, index) => {
    const pressurePa = 1e5 + 1e4 * index;
    return [pressurePa, takenShareAt(pressurePa)] as const;
  });
}

/** The 31 points up to 4 bar are on the line; then the pressure falls back to 3.5 bar and climbs along a lower line. */
const POPPED = course([
  ...rising(31, () => 0),
  ...Array.from({ length: 30 }, (_, index) => [3.5e5 + 5e3 * index, 0.4 + 0.02 * index] as const),
]);

describe('the line of slip in time order', () => {
  it('is left where no later point lies on it, and is the line that the points were made from', () => {
    const left = leaveLine(POPPED);
    expect(left?.leftIndex).toBe(31);
    expectRelative(left?.line.at(5e5) ?? 0, onLineM3PerS(5e5), 1e-9);
  });

  it('is not left by points that come back to it, nor by a course without an end off it', () => {
    const back = course([...rising(31, () => 0), ...rising(10, () => 0.3), ...rising(20, () => 0)]);
    expect(leaveLine(back)).toBeNull();
    expect(leaveLine(course(rising(50, () => 0)))).toBeNull();
  });

  it('does not count the delivery line filling at the start', () => {
    const filling = course(Array.from({ length: 6 }, () => [0.2e5, 1] as const));
    expect(leaveLine([...filling, ...POPPED])?.leftIndex).toBe(37);
  });

  it('tells what share of the flow is gone at the top', () => {
    // Taken at the last point: 0.4 + 0.02 · 29 = 0.98, less than a twentieth left: against the highest flow, at 1 bar.
    const lastM3PerS = 0.02 * onLineM3PerS(3.5e5 + 5e3 * 29);
    expectRelative(shareGoneAtTop(POPPED), 1 - lastM3PerS / onLineM3PerS(1e5), 1e-9);
    // 0.4 + 0.02 · 9 = 0.58, against the line.
    expectRelative(shareGoneAtTop(POPPED.slice(0, 41)), 0.58, 1e-9);
    expect(Math.abs(shareGoneAtTop(course(rising(50, () => 0))))).toBeLessThan(1e-9);
    expect(shareGoneAtTop([])).toBe(0);
  });
});

describe('a valve that pops or snaps', () => {
  it('opened a step behind the last point on the line, give or take a step', () => {
    const pop = popOpening(POPPED);
    // Last on the line 4.0 bar, steps of 0.1 bar: 4.1 ± 0.1.
    expectRelative(pop?.pressurePa ?? 0, 4.1e5, 1e-9);
    expectRelative(pop?.halfWidthPa ?? 0, 1e4, 1e-9);
    expectRelative(pop?.lineAtM3PerS(2e5) ?? 0, onLineM3PerS(2e5), 1e-9);
  });

  it('shows by a jump of a twentieth that is followed by a gradual opening, and of nothing without the jump', () => {
    const beyond = (pressurePa: number): number => Math.max(0, pressurePa - 4.05e5) / 4e5;
    const jumped = (pressurePa: number): number => (pressurePa > 4.05e5 ? 0.05 + beyond(pressurePa) : 0);
    expectRelative(popOpening(course(rising(60, jumped)))?.pressurePa ?? 0, 4.1e5, 1e-9);
    expect(popOpening(course(rising(60, beyond)))).toBeNull();
  });

  it('shut a step behind the last point that is wholly off the line', () => {
    // Falling by 0.05 bar a point with the valve open down to 3.5 bar, one point across, then all flow at 3.9 bar and down.
    const open = Array.from({ length: 20 }, (_, index) => [4.45e5 - 5e3 * index, 0.5] as const);
    const shut = rising(30, () => 0).toReversed();
    const snap = snapClosing(course([...open, [3.6e5, 0.2] as const, ...shut]));
    // 4.45 − 0.05 · 19 = 3.5 bar, a step on 3.45 ± 0.05.
    expectRelative(snap?.pressurePa ?? 0, 3.45e5, 1e-9);
    expectRelative(snap?.halfWidthPa ?? 0, 5e3, 1e-9);
    expect(snapClosing(course(rising(60, () => 0).toReversed()))).toBeNull();
  });
});
