import { describe, expect, it } from 'vitest';
import { type MonteCarloDelivery, monteCarloDelivery } from '../../../analysis/monteCarlo/monteCarloDelivery.ts';
import { seededUniform } from '../../../analysis/monteCarlo/seededUniform.ts';
import { exactly, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { INVENTED_LAW, type InventedLawRun, inventedLawRun } from '../efficiency/inventedLawRun.ts';

/** An invented law with every slip term well above zero, so that none is held at zero in any trial. */
const INNER_LAW = { ...INVENTED_LAW, orificeSlipM2: 2e-7, speedPressureSlipM3PerPa: 2e-12 };

function trialsOf(run: InventedLawRun, seed: number, trials = 10_000): MonteCarloDelivery {
  return monteCarloDelivery(
    { holds: run.holds, fit: run.fit, runOil: INVENTED_VG46, outlet: null, sources: run.sources },
    [
      {
        speedRevPerS: 15,
        differentialPressurePa: 3e5,
        oilTemperatureK: 318.15,
        oil: run.evidence.oil,
        laminarFactor: exactly(1),
      },
    ],
    trials,
    seededUniform(seed),
  );
}

describe('a delivery run by Monte Carlo', () => {
  it('agrees with the law of propagation where no term meets zero (seed 31)', () => {
    const result = trialsOf(inventedLawRun(5, 1, INNER_LAW), 31);
    expect(result.failedTrials).toBe(0);
    const [point] = result.points;
    for (const value of [
      result.derivedCapacityM3PerRev,
      result.laminarSlipM3,
      point?.flowM3PerS,
      point?.derivedEfficiency,
    ]) {
      expect(value?.comparison.agrees, JSON.stringify(value)).toBe(true);
      const [low, high] = value?.comparison.byPropagation ?? [Number.NaN, Number.NaN];
      // The mean of a nearly straight model is the model of the means: within 4 standard errors of 10,000 trials, u/100.
      expect(Math.abs((value?.mean ?? 0) - (low + high) / 2)).toBeLessThan(0.08 * (value?.standardDeviation ?? 0));
    }
  });

  it('gives an interval of the efficiency that does not know the gain of the flow meter (seed 32)', () => {
    // η = q/(V_i n) on one meter: with its gain's uncertainty ten times as large nothing changes, trial by trial.
    const run = inventedLawRun(6, 1, INNER_LAW);
    const coarse = Object.values(run.sources).map((source) =>
      source.id === 'flow.gain' ? { ...source, standardUncertainty: 10 * source.standardUncertainty } : source,
    );
    const fine = trialsOf(run, 32).points[0]?.derivedEfficiency.standardDeviation ?? Number.NaN;
    const result = trialsOf({ ...run, sources: sourceTable(coarse) }, 32);
    expectRelative(result.points[0]?.derivedEfficiency.standardDeviation ?? Number.NaN, fine, 0.01);
    expect(result.points[0]?.flowM3PerS.standardDeviation).toBeGreaterThan(3e-6);
  });

  it('never has a negative slip coefficient, and lies within the interval by propagation (seed 33)', () => {
    // The invented pump has no n Δp part: half of the trials hold it at zero.
    const result = trialsOf(inventedLawRun(7), 33);
    expect(result.laminarSlipM3.symmetricInterval[0]).toBeGreaterThanOrEqual(0);
    expect(result.derivedCapacityM3PerRev.comparison.contains).toBe(true);
  });

  it('gives the same answer for the same seed, and another for another', () => {
    const run = inventedLawRun(8);
    expect(trialsOf(run, 34, 1000)).toEqual(trialsOf(run, 34, 1000));
    expect(trialsOf(run, 34, 1000)).not.toEqual(trialsOf(run, 35, 1000));
  });

  it('leaves holds out that the fit left out (seed 36)', () => {
    const run = inventedLawRun(9);
    const last = run.holds.at(-1);
    if (last === undefined) throw new Error('no hold');
    const spoilt = {
      ...last,
      number: 99,
      inletFlowM3PerS: exactly(1),
      leftOut: { cause: 'person', reason: 'invented' } as const,
    };
    expect(trialsOf({ ...run, holds: [...run.holds, spoilt] }, 36, 1000)).toEqual(trialsOf(run, 36, 1000));
  });

  it('needs every source, and a thousand trials', () => {
    const run = inventedLawRun(10);
    expect(() => trialsOf({ ...run, sources: {} }, 1, 1000)).toThrow(RangeError);
    expect(() => trialsOf(run, 1, 999)).toThrow(RangeError);
  });
});
