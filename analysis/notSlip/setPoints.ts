import type { HoldState } from '../steady/holdState.ts';
import { differenceFrom, unitOf } from '../units.ts';

/** Set points are met by hand: speeds within this share of each other are one [1]. */
const SAME_SPEED_SHARE = 0.04;

/** Pressure differences within this share of each other, or this near, are one [1, Pa]. */
const SAME_PRESSURE_SHARE = 0.06;
const SAME_PRESSURE_PA = 2e4;

export function isSameSpeed(one: HoldState, other: HoldState): boolean {
  const [a, b] = [one.speedRevPerS.value, other.speedRevPerS.value];
  return Math.abs(a - b) <= SAME_SPEED_SHARE * Math.max(a, b);
}

export function isSamePressure(onePa: number, otherPa: number): boolean {
  const reachPa = Math.max(SAME_PRESSURE_PA, SAME_PRESSURE_SHARE * Math.max(Math.abs(onePa), Math.abs(otherPa)));
  return Math.abs(onePa - otherPa) <= reachPa;
}

/** Whether two holds were taken at one set point, as well as a hand meets it. */
export function isSameSetPoint(one: HoldState, other: HoldState): boolean {
  return (
    isSameSpeed(one, other) && isSamePressure(one.differentialPressurePa.value, other.differentialPressurePa.value)
  );
}

/** Holds of one speed together, slowest first; the order of holds within a speed is kept. */
export function bySpeed(holds: readonly HoldState[]): readonly (readonly HoldState[])[] {
  const groups: HoldState[][] = [];
  for (const hold of [...holds].sort((a, b) => a.speedRevPerS.value - b.speedRevPerS.value)) {
    const open = groups.find(([first]) => first !== undefined && isSameSpeed(first, hold));
    if (open === undefined) groups.push([hold]);
    else open.push(hold);
  }
  return groups.map((group) => holds.filter((hold) => group.includes(hold)));
}

/** Holds that take part in the fit, in the order in which they were taken. */
export function takenInOrder(holds: readonly HoldState[]): readonly HoldState[] {
  return holds.filter(({ leftOut }) => leftOut === null).sort((a, b) => a.startS - b.startS);
}

/**
 * A pressure difference as a fitter reads it.
 *
 * @param differencePa - pressure difference [Pa]
 * @returns with its unit [bar]
 *
 * @example inBar(250000) // '2.50 bar'
 */
export function inBar(differencePa: number): string {
  return `${differenceFrom(differencePa, unitOf('bar(a)')).toFixed(2)} bar`;
}
