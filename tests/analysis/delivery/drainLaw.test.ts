import { describe, expect, it } from 'vitest';
import { fitDrain } from '../../../analysis/delivery/drainLaw.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

const COEFFICIENT_M3 = 4e-13;
const PRESSURES_PA = [0.6e5, 1.8e5, 3e5, 3.9e5, 2.4e5];

function drained(scatterM3PerS: number, noise = () => 0): HoldState[] {
  return PRESSURES_PA.map((differentialPressurePa, index) => {
    const dynamicViscosityPaS = 0.045 - 0.002 * index;
    const hold = syntheticHold(
      index + 1,
      { speedRevPerS: 15, differentialPressurePa, dynamicViscosityPaS, densityKgPerM3: 860, flowM3PerS: 2e-4 },
      1e-7,
    );
    const scatter: Source = {
      id: `hold.${hold.number}.externalDrain`,
      label: 'drain',
      kind: 'random',
      standardUncertainty: scatterM3PerS,
      degreesOfFreedom: 50,
      shape: 'normal',
      pooledAs: null,
    };
    const value = (COEFFICIENT_M3 * differentialPressurePa) / dynamicViscosityPaS + noise();
    const externalDrainM3PerS = { value, sensitivities: { [scatter.id]: 1 } };
    return { ...hold, externalDrainM3PerS, sources: [...hold.sources, scatter] };
  });
}

describe('fitDrain', () => {
  it('returns the drain it was fed', () => {
    expectRelative(accepted(fitDrain(drained(1e-9))).drainCoefficientM3.value, COEFFICIENT_M3, 1e-9);
  });

  it('holds the true coefficient in 95 % of fits (300 draws, seed 61)', () => {
    const next = normal(61);
    let held = 0;
    for (let draw = 0; draw < 300; draw += 1) {
      const holds = drained(2e-8, () => 2e-8 * next());
      const drain = accepted(fitDrain(holds));
      const table = sourceTable([...holds.flatMap((hold) => hold.sources), ...drain.sources]);
      const stated = stateUncertainty(drain.drainCoefficientM3, table);
      if (Math.abs(stated.value - COEFFICIENT_M3) <= stated.expandedUncertainty) held += 1;
    }
    // Binomial sum for 300 draws at p = 0.95: P(X < 270) = 1.3e-4.
    expect(held).toBeGreaterThanOrEqual(270);
  });

  it('refuses holds without a drain reading, and one hold alone', () => {
    const holds = drained(1e-9);
    const refusalOf = (some: readonly HoldState[]): string => {
      const drain = fitDrain(some);
      return drain.ok ? 'fitted' : drain.reason.code;
    };
    expect(refusalOf(holds.map((hold) => ({ ...hold, externalDrainM3PerS: null })))).toBe('NO_DRAIN_CHANNEL');
    expect(refusalOf(holds.slice(0, 1))).toBe('TOO_FEW_DRAIN_HOLDS');
  });
});
