import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { twoStepCapacity } from '../../../analysis/delivery/twoStepCapacity.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

const GAIN: Source = {
  id: 'flow.gain',
  label: 'flow meter, gain',
  kind: 'calibration',
  standardUncertainty: 0.004,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
};

/** q = V_i n − k Δp − c n Δp on a grid; 20 cm³, 0.012 l/min/bar, 2e-6 l/rev/bar. */
function bilinear(speedsRpm: readonly number[], pressuresBar: readonly number[], noise = () => 0): HoldState[] {
  return speedsRpm
    .flatMap((rpm) => pressuresBar.map((bar) => ({ rpm, bar })))
    .map(({ rpm, bar }, index) => {
      const flowM3PerS = 20e-6 * (rpm / 60) - (0.012e-3 / 60) * bar - 2e-9 * (rpm / 60) * bar + noise();
      return syntheticHold(
        index + 1,
        {
          speedRevPerS: rpm / 60,
          differentialPressurePa: bar * 1e5,
          dynamicViscosityPaS: 0.03,
          densityKgPerM3: 870,
          flowM3PerS,
        },
        1e-7,
        { flowM3PerS: { 'flow.gain': -flowM3PerS } },
      );
    });
}

const SPEEDS = [600, 900, 1200, 1500, 1800];
const PRESSURES = [20, 50, 80, 110, 140];

describe('twoStepCapacity', () => {
  it('finds the capacity of exact bilinear data', () => {
    // Constructed data, V_i = 20.000 cm³/rev; the slopes at each pressure are V_i − c Δp (two-step regression as described
    // by Toet et al., Energies 12 (2019) 415): at 110 bar 20 − 0.22 = 19.78 cm³/rev.
    const holds = bilinear(SPEEDS, PRESSURES);
    const found = accepted(twoStepCapacity(holds, accepted(fitSlip(holds))));
    expectRelative(found.derivedCapacityM3PerRev.value, 20e-6, 1e-9);
    expect(found.levels).toHaveLength(5);
    expectRelative(found.levels[3]?.slopeM3PerRev.value ?? Number.NaN, 19.78e-6, 1e-9);
    expect(found.unusedHoldNumbers).toEqual([]);
    expect(Math.abs(found.differenceM3PerRev.value)).toBeLessThan(20e-6 * 1e-9);
  });

  it('does not care what law the speed-independent slip follows', () => {
    // By the method: any f(Δp) is the intercept of the first line and never reaches the second; here a square root.
    const holds = bilinear(SPEEDS, PRESSURES).map((hold) => {
      const value = hold.inletFlowM3PerS.value - 1e-8 * Math.sqrt(hold.differentialPressurePa.value);
      return { ...hold, inletFlowM3PerS: { ...hold.inletFlowM3PerS, value } };
    });
    const found = accepted(twoStepCapacity(holds, accepted(fitSlip(holds))));
    expectRelative(found.derivedCapacityM3PerRev.value, 20e-6, 1e-9);
  });

  it('lets the gain of the flow meter through in full, and cancels it in the difference from the slip law', () => {
    // By hand: q → q (1 + g) scales both capacities, so u(V_i)/V_i is u(g) and the difference does not see it.
    const holds = bilinear(SPEEDS, PRESSURES);
    const fit = accepted(fitSlip(holds));
    const found = accepted(twoStepCapacity(holds, fit));
    expectRelative(found.derivedCapacityM3PerRev.sensitivities['flow.gain'] ?? Number.NaN, -20e-6, 1e-9);
    expect(Math.abs(found.differenceM3PerRev.sensitivities['flow.gain'] ?? Number.NaN)).toBeLessThan(20e-6 * 1e-9);
  });

  it('has the true capacity in its 95 % interval (300 draws, seed 426)', () => {
    const next = normal(426);
    let held = 0;
    for (let draw = 0; draw < 300; draw += 1) {
      const gain = 0.004 * next();
      const holds = bilinear([600, 1200, 1800], [20, 60, 100, 140], () => 1e-7 * next()).map((hold) => {
        const value = hold.inletFlowM3PerS.value * (1 + gain);
        const sensitivities = { ...hold.inletFlowM3PerS.sensitivities, 'flow.gain': -value };
        return { ...hold, inletFlowM3PerS: { value, sensitivities } };
      });
      const fit = accepted(fitSlip(holds));
      const { derivedCapacityM3PerRev } = accepted(twoStepCapacity(holds, fit));
      const table = sourceTable([GAIN, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
      const stated = stateUncertainty(derivedCapacityM3PerRev, table);
      if (Math.abs(stated.value - 20e-6) <= stated.expandedUncertainty) held += 1;
    }
    // Binomial sums for 300 draws at p = 0.95: P(X < 270) = 1.3e-4, P(X > 297) = 2.9e-5.
    expect(held).toBeGreaterThanOrEqual(270);
    expect(held).toBeLessThanOrEqual(297);
  });

  it('asks for more speeds where a pressure was held at one alone', () => {
    const holds = bilinear(SPEEDS, PRESSURES).filter(
      ({ number, differentialPressurePa }) => differentialPressurePa.value < 60e5 || number > 20,
    );
    const found = twoStepCapacity(holds, accepted(fitSlip(holds)));
    // By hand: 20 and 50 bar have five speeds each, the others 1800 r/min alone.
    expect(found.ok ? 'found' : found.reason).toMatchObject({ code: 'TOO_FEW_LEVELS', got: 2, needed: 3 });
  });
});
