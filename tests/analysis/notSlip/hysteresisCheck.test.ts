import { describe, expect, it } from 'vitest';
import { hysteresisCheck } from '../../../analysis/notSlip/hysteresisCheck.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import {
  countOf300,
  INVENTED_LAW,
  LEAST_FOUND_OF_300,
  MOST_FALSE_ALARMS_OF_300,
  PLAN,
  plannedHolds,
  sourcesOf,
} from './plannedRun.ts';

const read = (holds: readonly HoldState[]) => hysteresisCheck(holds, INVENTED_LAW, sourcesOf(holds));

/** Up and down again at one speed. */
const UP_AND_DOWN = [6e4, 1.8e5, 3e5, 3.9e5, 3e5, 1.8e5, 6e4].map((pressurePa) => [15, pressurePa] as const);

/** On the way down 2 % is missing. */
const sticking = ({ index }: { index: number }) => (index > 3 ? 0.02 : 0);

describe('hysteresis', () => {
  it('pairs the holds of one pressure reached from below and from above', () => {
    const check = read(plannedHolds(2, sticking, UP_AND_DOWN));
    if (check.read !== 'sign') throw new Error(check.text);
    const pairs = check.numbers.pairs.map((pair) => [pair.fromBelowHoldNumber, pair.fromAboveHoldNumber]);
    // Hold 1 was reached from rest and has no pair.
    expect(pairs).toEqual([
      [2, 6],
      [3, 5],
    ]);
    expect(check.numbers.largest.difference.value).toBeLessThan(0);
    expect(check.text).toContain('less when the pressure is reached from above');
  });

  it('cries wolf in no more healthy runs than stated, seeds 1 to 300', () => {
    const alarms = countOf300(1, (seed) => read(plannedHolds(seed, () => 0, UP_AND_DOWN)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('finds 2 % between up and down, seeds 301 to 600', () => {
    const found = countOf300(301, (seed) => read(plannedHolds(seed, sticking, UP_AND_DOWN)).read === 'sign');
    expect(found).toBeGreaterThanOrEqual(LEAST_FOUND_OF_300);
  });

  it('cannot tell where each speed saw its pressures in one direction', () => {
    const check = read(plannedHolds(2, () => 0, PLAN));
    expect(check).toMatchObject({ read: 'cannot tell', code: 'ONE_DIRECTION' });
    expect(check.text).toContain('up and down again');
  });
});
