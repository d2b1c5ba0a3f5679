import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { driftCheck, withDrift } from '../../../analysis/notSlip/driftCheck.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import {
  countOf300,
  INVENTED_LAW,
  LEAST_FOUND_OF_300,
  MOST_FALSE_ALARMS_OF_300,
  PLAN,
  plannedHolds,
  sourcesOf,
} from './plannedRun.ts';

const read = (holds: readonly HoldState[]) => driftCheck(holds, INVENTED_LAW, sourcesOf(holds));

/** Flow falls by 1.5 % through the run, straight in time. */
const drifting = ({ index }: { index: number }) => (0.015 * index) / (PLAN.length - 1);

describe('drift', () => {
  it('reads the shift of the repeated first hold and hands it to the budget', () => {
    const holds = plannedHolds(5, drifting);
    const found = read(holds);
    if (found.read === 'cannot tell') throw new Error(found.text);
    const { shift, sources, firstHoldNumber, repeatHoldNumber } = found.numbers;
    expect([firstHoldNumber, repeatHoldNumber]).toEqual([1, 13]);
    // −1.5 % of a flow that is V_i n less the slip: within five standard uncertainties of two holds of 0.1 %.
    expect(Math.abs(shift.value + 0.015)).toBeLessThan(5 * Math.SQRT2 * 0.001 + 0.001);
    // Half widths |s|/2 and |s|, rectangular: over √3.
    expectRelative(sources[0]?.standardUncertainty ?? 0, Math.abs(shift.value) / 2 / Math.sqrt(3), 1e-12);
    expectRelative(sources[1]?.standardUncertainty ?? 0, Math.abs(shift.value) / Math.sqrt(3), 1e-12);
  });

  it('does not see the gain of the meter, which both holds share', () => {
    const holds = plannedHolds(6);
    const found = read(holds);
    if (found.read === 'cannot tell') throw new Error(found.text);
    const { value, sensitivities } = found.numbers.shift;
    // ∂shift/∂gain = −(flow part of the shift): no larger than the shift itself and the difference of set points.
    expect(Math.abs(sensitivities['flow.gain'] ?? 1)).toBeLessThan(Math.abs(value) + 0.01);
  });

  it('puts half the drift on the first hold, half on the last and less between, besides what all share', () => {
    const holds = plannedHolds(7, drifting);
    const found = read(holds);
    if (found.read === 'cannot tell') throw new Error(found.text);
    const carried = withDrift(holds, found.numbers);
    const course = carried.map(
      ({ inletFlowM3PerS: flow }) => (flow.sensitivities['run.drift.course'] ?? 0) / flow.value,
    );
    // The holds are evenly spaced: −½, …, 0 at the seventh of thirteen, …, +½.
    expectRelative(course[0] ?? 0, -0.5, 1e-9);
    expect(Math.abs(course[6] ?? 1)).toBeLessThan(1e-9);
    expectRelative(course[12] ?? 0, 0.5, 1e-9);
    for (const { flowM3PerS: flow } of carried) expectRelative(flow.sensitivities['run.drift'] ?? 0, flow.value, 1e-12);
  });

  it('widens the capacity by at least half the drift over √3 when the holds are fitted with it', () => {
    const holds = plannedHolds(8, drifting);
    const found = read(holds);
    if (found.read === 'cannot tell') throw new Error(found.text);
    const carried = withDrift(holds, found.numbers);
    const fit = accepted(fitSlip(carried));
    const table = sourceTable([...Object.values(sourcesOf(holds)), ...fit.sources, ...found.numbers.sources]);
    const { budget, value } = stateUncertainty(fit.uncertain.derivedCapacityM3PerRev, table);
    const line = budget.find(({ sourceId }) => sourceId === 'run.drift');
    // A common relative error of all flows is the same relative error of V_i: the law is linear in its coefficients.
    expectRelative(line?.contribution ?? 0, (value * Math.abs(found.numbers.shift.value)) / 2 / Math.sqrt(3), 0.02);
  });

  it('cries wolf in no more healthy runs than stated, seeds 1 to 300', () => {
    const alarms = countOf300(1, (seed) => read(plannedHolds(seed)).read === 'sign');
    expect(alarms).toBeLessThanOrEqual(MOST_FALSE_ALARMS_OF_300);
  });

  it('finds a drift of 1.5 %, seeds 301 to 600', () => {
    const found = countOf300(301, (seed) => read(plannedHolds(seed, drifting)).read === 'sign');
    expect(found).toBeGreaterThanOrEqual(LEAST_FOUND_OF_300);
  });

  it('cannot tell where the first hold was not repeated, or repeated too early', () => {
    const once = plannedHolds(9).slice(0, 12);
    expect(read(once)).toMatchObject({ read: 'cannot tell', code: 'FIRST_NOT_REPEATED' });
    const early = [...PLAN.slice(0, 3), PLAN[0] ?? [15, 6e4], ...PLAN.slice(3, 12)] as const;
    expect(read(plannedHolds(9, () => 0, early))).toMatchObject({ read: 'cannot tell' });
    expect(read([]).text).toContain('Set the first point once more');
  });
});
