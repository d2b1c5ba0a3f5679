import { describe, expect, it } from 'vitest';
import { reliefBreak } from '../../../analysis/notSlip/reliefBreak.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import {
  countOf300,
  INVENTED_LAW,
  LEAST_FOUND_OF_300,
  MOST_FALSE_ALARMS_OF_300,
  PLAN,
  plannedHolds,
} from './plannedRun.ts';

/** A valve that cracks at 3.3 bar and passes 3 % of the flow at 900 r/min by 3.9 bar, the same volume at any speed. */
const leaking = (atTop: number) => {
  return ({ makings, lawFlowM3PerS }: { makings: { differentialPressurePa: number }; lawFlowM3PerS: number }) => {
    const beyondPa = Math.max(0, makings.differentialPressurePa - 3.3e5);
    return (((atTop * beyondPa) / 6e4) * 2e-4) / lawFlowM3PerS;
  };
};

describe('a relief valve that opens in a delivery run', () => {
  it('finds the levels between which it opens, and the holds beyond', () => {
    const check = reliefBreak(plannedHolds(21, leaking(0.05)));
    if (check.read !== 'sign') throw new Error(check.text);
    const { between, holdNumbersBeyond, leftOut } = check.numbers;
    expect(between.lowerPa).toBeGreaterThan(2.9e5);
    expect(between.upperPa).toBeLessThan(4.1e5);
    // Fourth of the first speed, first of the second, fourth of the third.
    expect(holdNumbersBeyond).toEqual([4, 5, 12]);
    expect(leftOut?.cause).toBe('relief');
  });

  it('takes the loss beyond slip from holds without scatter as it was planted', () => {
    // Flow exactly V_i n − C Δp, and from 3 bar on less by k (Δp − 3 bar), k such that 1e-5 m³/s is gone at 4 bar.
    const points = [15, 9, 18].flatMap((speed) =>
      [1e5, 2e5, 3e5, 4e5].map((pressurePa) => [speed, pressurePa] as const),
    );
    const holds = plannedHolds(1, () => 0, points).map((hold, index) => {
      const [speed, pressurePa] = points[index] ?? [0, 0];
      const flow = 14e-6 * speed - 4e-11 * pressurePa - 1e-10 * Math.max(0, pressurePa - 3e5);
      const exact = (value: number) => ({ value, sensitivities: {} });
      return {
        ...hold,
        speedRevPerS: exact(speed),
        differentialPressurePa: exact(pressurePa),
        dynamicViscosityPaS: exact(0.03),
        inletFlowM3PerS: exact(flow),
      };
    });
    const check = reliefBreak(holds);
    if (check.read !== 'sign') throw new Error(check.text);
    // Mean flow at 4 bar: 14e-6 × 14 − 1.6e-5 − 1e-5 = 1.7e-4; 1e-5/1.7e-4 = 5.88 %.
    expectRelative(check.numbers.lostShare, 1e-5 / 1.7e-4, 1e-6);
  });

  it('cries wolf in no more healthy runs than stated, seeds 1 to 300', () => {
    expect(countOf300(1, (seed) => reliefBreak(plannedHolds(seed)).read === 'sign')).toBeLessThanOrEqual(
      MOST_FALSE_ALARMS_OF_300,
    );
  });

  it('cries wolf in no more runs of a badly worn pump with much slip through orifices, seeds 301 to 600', () => {
    const worn = { ...INVENTED_LAW, laminarSlipM3: 5e-12, orificeSlipM2: 1e-6 };
    const alarms = countOf300(301, (seed) => reliefBreak(plannedHolds(seed, () => 0, PLAN, worn)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('finds 5 % that the valve passes at the highest pressure, seeds 601 to 900', () => {
    const found = countOf300(601, (seed) => reliefBreak(plannedHolds(seed, leaking(0.05))).read === 'sign');
    expect(found).toBeGreaterThanOrEqual(LEAST_FOUND_OF_300);
  });

  it('cannot tell from three pressures, nor from four of one speed', () => {
    const three = plannedHolds(
      1,
      () => 0,
      PLAN.filter(([, pressurePa]) => pressurePa < 3.5e5),
    );
    expect(reliefBreak(three)).toMatchObject({ read: 'cannot tell', code: 'TOO_FEW_PRESSURES' });
    const oneSpeed = plannedHolds(1, () => 0, PLAN.slice(0, 4));
    expect(reliefBreak(oneSpeed)).toMatchObject({ read: 'cannot tell', code: 'TOO_FEW_HOLDS' });
    expect(reliefBreak([])).toMatchObject({ read: 'cannot tell', code: 'TOO_FEW_PRESSURES' });
  });
});
