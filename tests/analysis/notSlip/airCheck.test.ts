import { describe, expect, it } from 'vitest';
import { airCheck, restsOf } from '../../../analysis/notSlip/airCheck.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { sampledReadings } from '../../support/readings.ts';
import {
  countOf300,
  INVENTED_LAW,
  LEAST_FOUND_OF_300,
  MOST_FALSE_ALARMS_OF_300,
  PLAN,
  plannedHolds,
  sourcesOf,
} from './plannedRun.ts';

/** Holds 12 and 13 of the plan lie at 120 s and 130 s: here the oil rests before the last, the first point repeated. */
const RESTS = [{ startS: 125.5, endS: 129.5 }];

const read = (holds: readonly HoldState[], rests = RESTS) => airCheck(holds, rests, INVENTED_LAW, sourcesOf(holds));

/** 2 % free air until the oil has rested. */
const airy = ({ index }: { index: number }) => (index < PLAN.length - 1 ? 0.02 : 0);

describe('air in the oil', () => {
  it('finds as many per cent of flow as there was air, the law making the points alike', () => {
    const check = read(plannedHolds(3, airy));
    if (check.read !== 'sign') throw new Error(check.text);
    const { worst } = check.numbers;
    expect([worst.holdNumber, worst.clearerHoldNumber, worst.how]).toEqual([1, 13, 'after a rest']);
    // 2 % of a flow that is slip short of V_i n (about 3 % here): within five standard uncertainties of two holds of 0.1 %.
    expect(Math.abs(worst.lost.value - 0.02 * 0.97)).toBeLessThan(5 * Math.SQRT2 * 0.001);
    expect(check.text).toContain('Air in the oil');
  });

  it('holds a flooded against a lifted inlet without any rest', () => {
    const [first, last] = plannedHolds(4, airy).filter(({ number }) => number === 1 || number === 13);
    if (first === undefined || last === undefined) throw new Error('no such holds');
    const flooded = { ...last, suctionPressurePa: exactly(1.1e5) };
    const check = read([first, flooded], []);
    expect(check.read).toBe('sign');
    if (check.read === 'sign') expect(check.numbers.worst.how).toBe('with a flooded inlet');
    // The order in which they were taken does not matter: a pair has no before and after.
    const turned = read([{ ...first, startS: 900, endS: 905 }, flooded], []);
    if (check.read !== 'sign' || turned.read !== 'sign') throw new Error(turned.text);
    expectRelative(turned.numbers.worst.lost.value, check.numbers.worst.lost.value, 1e-12);
  });

  it('takes less flow after a rest for no sign of air', () => {
    const check = read(plannedHolds(3, ({ index }) => (index === PLAN.length - 1 ? 0.02 : 0)));
    expect(check.read).toBe('no sign');
  });

  it('cries wolf in no more healthy runs than stated, seeds 1 to 300', () => {
    const alarms = countOf300(1, (seed) => read(plannedHolds(seed)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('finds 2 % of air, seeds 301 to 600', () => {
    const found = countOf300(301, (seed) => read(plannedHolds(seed, airy)).read === 'sign');
    expect(found).toBeGreaterThanOrEqual(LEAST_FOUND_OF_300);
  });

  it('cannot tell without a rest and with one suction pressure', () => {
    expect(read(plannedHolds(3, airy), [])).toMatchObject({ read: 'cannot tell', code: 'NO_PAIR' });
    expect(read([])).toMatchObject({ read: 'cannot tell', code: 'NO_PAIR' });
  });

  it('sees a rest where the shaft stands for a minute, and none in half a minute', () => {
    const speedAt = (atS: number): number => ((atS >= 20 && atS < 50) || (atS >= 100 && atS < 170) ? 0 : 15);
    const rests = restsOf(sampledReadings(200, 10, { speed: speedAt }));
    expect(rests).toHaveLength(1);
    expect(Math.abs((rests[0]?.startS ?? 0) - 100)).toBeLessThan(0.11);
    expect(Math.abs((rests[0]?.endS ?? 0) - 170)).toBeLessThan(0.11);
    expect(restsOf(sampledReadings(200, 10, { flow: () => 0 }))).toEqual([]);
  });
});
