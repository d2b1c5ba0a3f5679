import { describe, expect, it } from 'vitest';
import { fitSlip, type SlipFit } from '../../../analysis/delivery/fitSlip.ts';
import { type Goal, nextBestHold } from '../../../analysis/delivery/nextBestHold.ts';
import { fittedFlow } from '../../../analysis/delivery/slipLaw.ts';
import type { HoldState } from '../../../analysis/steady/holdState.ts';
import { type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

const OIL = { dynamicViscosityPaS: 0.04, densityKgPerM3: 860 };
const REACH = { speedRevPerS: [5, 20], differentialPressurePa: [0.5e5, 4e5] } as const;
const DUTY: Goal = { kind: 'flow', at: { speedRevPerS: 15, differentialPressurePa: 3e5, ...OIL } };
const CAPACITY: Goal = { kind: 'derivedCapacity' };

function offset(standardUncertainty: number): Source {
  return {
    id: 'flow.offset',
    label: 'flow meter, offset',
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
}

function holdAt(number: number, speedRevPerS: number, differentialPressurePa: number): HoldState {
  const flowM3PerS = 14e-6 * speedRevPerS - (2e-12 * differentialPressurePa) / OIL.dynamicViscosityPaS;
  return syntheticHold(number, { speedRevPerS, differentialPressurePa, flowM3PerS, ...OIL }, 2e-7, {
    flowM3PerS: { 'flow.offset': -1 },
  });
}

/** A lopsided run: high pressures, hardly any low one. */
function lopsided(): HoldState[] {
  return [
    [15, 4e5],
    [15, 3.6e5],
    [15, 3.2e5],
    [18, 4e5],
    [18, 3.4e5],
    [18, 2.4e5],
  ].map(([n = 0, dp = 0], index) => holdAt(index + 1, n, dp));
}

function stateWith(fit: SlipFit, holds: readonly HoldState[], calibration: Source) {
  const table = sourceTable([calibration, ...holds.flatMap((hold) => hold.sources), ...fit.sources]);
  return (uncertain: Parameters<typeof stateUncertainty>[0]) => stateUncertainty(uncertain, table);
}

function uncertaintyOf(holds: readonly HoldState[], goal: Goal, calibration: Source): number {
  const fit = accepted(fitSlip(holds));
  const value = goal.kind === 'flow' ? fittedFlow(fit, goal.at) : fit.uncertain.derivedCapacityM3PerRev;
  return stateWith(fit, holds, calibration)(value).standardUncertainty;
}

describe('nextBestHold', () => {
  it('promises what adding that hold then brings, when scatter is all there is', () => {
    // The same oil, the same scatter and exact data: the promise holds but for rounding (a calibration of nothing).
    const holds = lopsided();
    const fit = accepted(fitSlip(holds));
    for (const goal of [CAPACITY, DUTY]) {
      const next = nextBestHold(fit, holds, REACH, goal, stateWith(fit, holds, offset(0)));
      const added = [...holds, holdAt(99, next.speedRevPerS, next.differentialPressurePa)];
      expectRelative(next.before, uncertaintyOf(holds, goal, offset(0)), 1e-6);
      expectRelative(next.after, uncertaintyOf(added, goal, offset(0)), 1e-6);
      expect(next.after).toBeLessThan(next.before);
    }
  });

  it('finds the best point of its grid', () => {
    // Brute force: refit with a hold added at every point of a coarse grid within reach; none beats the promise.
    const holds = lopsided();
    const fit = accepted(fitSlip(holds));
    const next = nextBestHold(fit, holds, REACH, CAPACITY, stateWith(fit, holds, offset(0)));
    for (const n of [5, 10, 15, 20]) {
      for (const dp of [0.5e5, 1e5, 2e5, 3e5, 4e5]) {
        const after = uncertaintyOf([...holds, holdAt(99, n, dp)], CAPACITY, offset(0));
        expect(after).toBeGreaterThanOrEqual(next.after * (1 - 1e-6));
      }
    }
    expect(next.differentialPressurePa).toBe(0.5e5);
    expect(next.isWorthWhile).toBe(true);
    expect(next.text).toMatch(
      /^One more hold at \d+ r\/min and 0\.50 bar (halves|takes \d+ % off) the standard uncertainty/,
    );
  });

  it('owns up when calibrations are what is left', () => {
    // Fed: scatter 2e-7 m³/s in 24 holds against an offset of 3e-7 m³/s that all of them share.
    const holds = [5, 10, 15, 20]
      .flatMap((n) => [0.5e5, 1e5, 2e5, 3e5, 3.5e5, 4e5].map((dp) => ({ n, dp })))
      .map(({ n, dp }, index) => holdAt(index + 1, n, dp));
    const fit = accepted(fitSlip(holds));
    const next = nextBestHold(fit, holds, REACH, DUTY, stateWith(fit, holds, offset(3e-7)));
    expect(next.isWorthWhile).toBe(false);
    expect(next.text).toMatch(/^No further hold helps much: 9\d\.\d % of the variance .* calibrations/);
  });

  it('asks for several where one is too little', () => {
    // With 48 holds alike, one more takes about p/(2 n) = 4/96 off the standard uncertainty.
    const holds = [5, 10, 15, 20, 5, 10, 15, 20]
      .flatMap((n) => [0.5e5, 1e5, 2e5, 3e5, 3.5e5, 4e5].map((dp) => ({ n, dp })))
      .map(({ n, dp }, index) => holdAt(index + 1, n, dp));
    const fit = accepted(fitSlip(holds));
    const next = nextBestHold(fit, holds, REACH, DUTY, stateWith(fit, holds, offset(0)));
    expect(next.text).toMatch(/^No single further hold helps much/);
  });

  it('refuses a reach that holds no set point', () => {
    const holds = lopsided();
    const fit = accepted(fitSlip(holds));
    const empty = { ...REACH, speedRevPerS: [20, 5] } as const;
    expect(() => nextBestHold(fit, holds, empty, CAPACITY, stateWith(fit, holds, offset(0)))).toThrow(/reach/);
  });
});
