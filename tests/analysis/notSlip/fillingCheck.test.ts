import { describe, expect, it } from 'vitest';
import { fillingCheck } from '../../../analysis/notSlip/fillingCheck.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';
import {
  countOf300,
  INVENTED_LAW,
  LEAST_FOUND_OF_300,
  MOST_FALSE_ALARMS_OF_300,
  plannedHolds,
  sourcesOf,
} from './plannedRun.ts';

const read = (holds: readonly HoldState[]) => fillingCheck(holds, sourcesOf(holds));

/** 3 % of the flow missing above 1000 r/min. */
const kneeAt1000 = ({ makings }: { makings: { speedRevPerS: number } }) =>
  makings.speedRevPerS > 1000 / 60 ? 0.03 : 0;

/** An exact hold without slip: flow per turn times speed. */
function exactHold(number: number, speedRevPerS: number, flowPerTurnM3: number): HoldState {
  const makings = { differentialPressurePa: 5e4, dynamicViscosityPaS: 0.03, densityKgPerM3: 860 };
  return syntheticHold(number, { speedRevPerS, flowM3PerS: flowPerTurnM3 * speedRevPerS, ...makings }, 1e-9);
}

describe('filling', () => {
  it('finds a fall of flow per turn worked by hand, and the holds beyond it', () => {
    // 14.0, 14.0 and 13.3 cm³ a turn: 1 − 13.3/14 = 5 %.
    const holds = [exactHold(1, 10, 14e-6), exactHold(2, 15, 14e-6), exactHold(3, 20, 13.3e-6)];
    const found = read(holds);
    if (found.read !== 'sign') throw new Error(found.text);
    expectRelative(found.numbers.largestFall.value, 0.05, 1e-9);
    expect(found.numbers.knee).toEqual({ lastFilledRevPerS: 15, firstUnfilledRevPerS: 20 });
    expect(found.numbers.holdNumbersBeyond).toEqual([3]);
    expect(found.numbers.leftOut?.cause).toBe('filling');
    expect(found.text).toContain('Between 900 and 1200 r/min');
  });

  it('takes slip for no sign: flow per turn that is low at low speed rises', () => {
    // q/n = V_i − slip/n: the slip law at one pressure.
    const slipM3PerS = 2e-5;
    const holds = [5, 10, 20].map((speed, index) => exactHold(index + 1, speed, 14e-6 - slipM3PerS / speed));
    const found = read(holds);
    expect(found.read).toBe('no sign');
    if (found.read === 'no sign') expect(found.numbers.largestFall.value).toBeLessThan(0);
  });

  it('takes no hold beyond the knee at any pressure into the fit', () => {
    const found = read(plannedHolds(11, kneeAt1000));
    if (found.read !== 'sign') throw new Error(found.text);
    // Holds 9 to 12 of the plan stand at 1125 r/min.
    expect(found.numbers.holdNumbersBeyond).toEqual([9, 10, 11, 12]);
  });

  it('cries wolf in no more healthy runs than stated, seeds 1 to 300', () => {
    const alarms = countOf300(1, (seed) => read(plannedHolds(seed)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('cries wolf in no more runs of a badly worn pump, seeds 301 to 600', () => {
    const worn = { ...INVENTED_LAW, laminarSlipM3: 1.2e-11, orificeSlipM2: 3e-7 };
    const alarms = countOf300(301, (seed) => read(plannedHolds(seed, () => 0, undefined, worn)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('finds 3 % that is missing above 1000 r/min, seeds 601 to 900', () => {
    const found = countOf300(601, (seed) => {
      const check = read(plannedHolds(seed, kneeAt1000));
      return check.read === 'sign' && check.numbers.holdNumbersBeyond.join() === '9,10,11,12';
    });
    expect(found).toBeGreaterThanOrEqual(LEAST_FOUND_OF_300);
  });

  it('cannot tell from one speed, nor from nothing, and says what to add', () => {
    const oneSpeed = read([exactHold(1, 15, 14e-6), exactHold(2, 15.1, 14e-6)]);
    expect(oneSpeed).toMatchObject({ read: 'cannot tell', code: 'SPEED_NOT_VARIED' });
    expect(oneSpeed.text).toContain('Repeat it at two more');
    expect(read([])).toMatchObject({ read: 'cannot tell', code: 'SPEED_NOT_VARIED' });
  });
});
