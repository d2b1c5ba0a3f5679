import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { type Coefficients, certainPoint } from '../../../analysis/delivery/slipLaw.ts';
import { dimensionlessCurve, dimensionlessView } from '../../../analysis/efficiency/dimensionlessView.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_LAW, inventedHold, inventedLawRun } from './inventedLawRun.ts';

/** A law with every term. */
const ALL_TERMS: Coefficients = { ...INVENTED_LAW, speedPressureSlipM3PerPa: 3e-13 };

function leftOutBy(cause: 'person', hold: HoldState): HoldState {
  return { ...hold, leftOut: { cause, reason: 'invented' } };
}

describe('the dimensionless view', () => {
  it('brings the holds of a sound pump on one curve once orifice and n Δp parts are given back', () => {
    const { fit, holds } = inventedLawRun(71, 0, ALL_TERMS);
    const view = dimensionlessView(fit, holds);
    expect(view.points).toHaveLength(holds.length);
    expectRelative(view.slipNumber, 2.2e-12 / 13.9e-6, 1e-6);
    for (const { holdNumber, speedNumber, measuredEfficiency, correctedEfficiency } of view.points) {
      const hold = holds.find(({ number }) => number === holdNumber);
      if (hold === undefined) throw new Error('no such hold');
      const at = certainPoint(hold);
      // By hand: S = µ n/Δp; given back is (C_t √(2Δp/ρ) + C_np n Δp)/(V_i n), left is 1 − (C_l/V_i)/S.
      expectRelative(speedNumber, (at.dynamicViscosityPaS * at.speedRevPerS) / at.differentialPressurePa, 1e-12);
      const givenBack =
        (5e-8 * Math.sqrt((2 * at.differentialPressurePa) / at.densityKgPerM3)) / (13.9e-6 * at.speedRevPerS) +
        (3e-13 * at.differentialPressurePa) / 13.9e-6;
      expectRelative(correctedEfficiency, 1 - 2.2e-12 / 13.9e-6 / speedNumber, 1e-6);
      expectRelative(measuredEfficiency, correctedEfficiency - givenBack, 1e-6);
    }
    const numbers = view.points.map(({ speedNumber }) => speedNumber);
    expect(numbers).toEqual([...numbers].sort((a, b) => a - b));
  });

  it('is Wilson’s curve', () => {
    // Wilson (1946), from memory: η_V = 1 − C_s Δp/(2π µ n) with C_s = 2π C_l/V; C_s = 1e-6 at µ n/Δp = 2e-6 is 1 − 1/(4π).
    expectRelative(dimensionlessCurve(1e-6 / (2 * Math.PI), 2e-6), 1 - 1 / (4 * Math.PI), 1e-12);
  });

  it('shows a hold that was left out beside the curve of the others, and calls only that one', () => {
    // 3 % of the flow missing at 18.75 rev/s, against a scatter of 5e-8 in 2.5e-4 m³/s.
    const short = inventedHold(14, { speedRevPerS: 18.75, differentialPressurePa: 1.8e5 }, -0.03 * 2.5e-4);
    const { fit, holds } = inventedLawRun(72);
    const view = dimensionlessView(fit, [...holds, leftOutBy('person', short)]);
    expect(view.points.filter(({ leavesCurve }) => leavesCurve).map(({ holdNumber }) => holdNumber)).toEqual([14]);
    expect(view.points.find(({ holdNumber }) => holdNumber === 14)).toMatchObject({ isInFit: false });
    expect(view.points.filter(({ isInFit }) => isInFit)).toHaveLength(13);
  });

  it('calls a hold that is in the fit, which cannot hide in a scatter of its own making', () => {
    const { holds } = inventedLawRun(73);
    const off = holds.map((hold) =>
      hold.number === 6 ? inventedHold(6, { speedRevPerS: 9, differentialPressurePa: 1.8e5 }, 4e-6) : hold,
    );
    const view = dimensionlessView(accepted(fitSlip(off)), off);
    expect(view.points.filter(({ leavesCurve }) => leavesCurve).map(({ holdNumber }) => holdNumber)).toEqual([6]);
  });

  it('cries wolf in about one sound run in a hundred (300 runs, seeds 1001 to 1300)', () => {
    let alarms = 0;
    for (let seed = 1001; seed <= 1300; seed += 1) {
      const { fit, holds } = inventedLawRun(seed);
      if (dimensionlessView(fit, holds).points.some(({ leavesCurve }) => leavesCurve)) alarms += 1;
    }
    // Binomial sum for 300 runs at p = 0.01: P(X > 10) = 2.5e-4; fewer are no fault, since a quiet run counts its readings' scatter.
    expect(alarms).toBeLessThanOrEqual(10);
  });

  it('has no place for a hold without a pressure rise, and no limit where the fit leaves nothing to judge by', () => {
    const { fit, holds } = inventedLawRun(74, 0);
    const open = holds.map((hold) => (hold.number === 3 ? { ...hold, differentialPressurePa: exactly(-2e3) } : hold));
    const view = dimensionlessView(fit, open);
    expect(view.withoutPlace).toEqual([3]);
    expect(view.points.some(({ holdNumber }) => holdNumber === 3)).toBe(false);
    // Three holds for three coefficients leave no degree of freedom.
    const few = holds.map((hold, index) => (index % 5 === 0 ? hold : leftOutBy('person', hold)));
    const poor = dimensionlessView(fit, few);
    expect(poor.limit).toBeNull();
    expect(poor.points.every(({ deviation, leavesCurve }) => deviation === null && !leavesCurve)).toBe(true);
  });
});
