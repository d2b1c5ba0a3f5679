import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { volumetricEfficiency } from '../../../analysis/delivery/volumetricEfficiency.ts';
import { combine, exactly, type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function source(
  id: string,
  standardUncertainty: number,
  degreesOfFreedom: number | null,
  pooledAs: string | null = null,
): Source {
  return {
    id,
    label: `${id}, in words`,
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom,
    shape: 'normal',
    pooledAs,
  };
}

describe('stateUncertainty', () => {
  it('reproduces the end gauge of the guide', () => {
    // JCGM 100:2008, H.1: l = l_s + d − l_s (δα θ + α_s δθ); u_c = 32 nm (31.71 before rounding), ν_eff = 16.
    // Lengths in nm. u(d) from its three parts, 5.8 nm (ν 24), 3.9 nm (ν 5) and 6.7 nm (ν 8); α and θ cancel to first order.
    const standardNm = 50_000_623;
    const length = {
      value: standardNm + 215,
      sensitivities: {
        standard: 1,
        repeatability: 1,
        comparatorRandom: 1,
        comparatorSystematic: 1,
        expansionDifference: -standardNm * -0.1,
        temperatureDifference: -standardNm * 11.5e-6,
      },
    };
    const sources = sourceTable([
      source('standard', 25, 18),
      source('repeatability', 5.8, 24),
      source('comparatorRandom', 3.9, 5),
      source('comparatorSystematic', 6.7, 8),
      source('expansionDifference', 0.58e-6, 50),
      source('temperatureDifference', 0.029, 2),
    ]);
    const stated = stateUncertainty(length, sources, 0.99);
    expect(stated.value).toBe(50_000_838);
    expect(Math.abs(stated.standardUncertainty - 31.705)).toBeLessThan(0.01);
    // The guide enters u(d) = 9.7 nm with its own ν = 25.6 and gets 16.7; the six parts give the same sum of fourth powers.
    expect(Math.abs((stated.degreesOfFreedom ?? Number.NaN) - 16.64)).toBeLessThan(0.02);
    // U₉₉ = 93 nm there, with ν truncated to 16 and u_c rounded up to 32; k for ν = 16.64 lies between t₉₉(17) = 2.898
    // and t₉₉(16) = 2.921 (table G.2).
    expect(stated.coverageFactor).toBeGreaterThan(2.898);
    expect(stated.coverageFactor).toBeLessThan(2.921);
  });

  it('combines degrees of freedom as the guide does and truncates nothing', () => {
    // JCGM 100:2008, G.4.1: parts of 0.25, 0.57 and 0.82 %, ν 9, 4 and 14: u_c = 1.03 %, ν_eff = 19.0, U₉₅ = 2.2 %;
    // from memory of it, recomputed: 1.029466 %, 18.998742, 2.1547 %. Truncation to 18 would give k = 2.101.
    const sources = sourceTable([source('a', 0.25, 9), source('b', 0.57, 4), source('c', 0.82, 14)]);
    const stated = stateUncertainty({ value: 100, sensitivities: { a: 1, b: 1, c: 1 } }, sources);
    expectRelative(stated.standardUncertainty, 1.029466, 1e-6);
    expectRelative(stated.degreesOfFreedom ?? Number.NaN, 18.998742, 1e-6);
    expectRelative(stated.expandedUncertainty, 2.1547, 2.5e-5);
    expect(stated.budget.map(({ sourceId }) => sourceId)).toEqual(['c', 'b', 'a']);
    expectRelative(
      stated.budget.reduce((sum, { share }) => sum + share, 0),
      1,
      1e-12,
    );
  });

  it('counts sources of one common estimate as one component', () => {
    // By hand: two pooled sources of 3 and 4 make one of 5 with ν 10, alone: ν_eff = 10. Counted apart it would be
    // 5⁴/(3⁴/10 + 4⁴/10) = 18.5.
    const sources = sourceTable([source('one', 3, 10, 'scatter'), source('two', 4, 10, 'scatter')]);
    const stated = stateUncertainty({ value: 0, sensitivities: { one: 1, two: 1 } }, sources);
    expectRelative(stated.standardUncertainty, 5, 1e-12);
    expectRelative(stated.degreesOfFreedom ?? Number.NaN, 10, 1e-12);
    expect(stated.budget.map(({ sourceId }) => sourceId)).toEqual(['scatter']);
  });

  it('adds up the relative uncertainties of a volumetric efficiency', () => {
    // JCGM 100:2008, 5.1.6 (product model): Q = 28.00 (u 0.14) l/min, V = 19.95 (u 0.05) cm³, n = 1500 (u 1.5) r/min;
    // constructed, recomputed: η = 0.935672515, u = 0.005316182.
    const flowM3PerS = { value: 28e-3 / 60, sensitivities: { flow: 1 } };
    const capacityM3PerRev = { value: 19.95e-6, sensitivities: { capacity: 1 } };
    const speedRevPerS = { value: 25, sensitivities: { speed: 1 } };
    const sources = sourceTable([
      source('flow', 0.14e-3 / 60, null),
      source('capacity', 0.05e-6, null),
      source('speed', 1.5 / 60, null),
    ]);
    const stated = stateUncertainty(volumetricEfficiency(flowM3PerS, capacityM3PerRev, speedRevPerS), sources);
    expectRelative(stated.value, 0.935672515, 1e-8);
    expectRelative(stated.standardUncertainty, 0.005316182, 1e-7);
    expect(stated.degreesOfFreedom).toBeNull();
  });

  it('does not see a gain that numerator and denominator share', () => {
    // By hand: y = a/b, a = 6 (1 + g), b = 3 (1 + g): ∂y/∂g = 6/3 − 6 · 3/9 = 0.
    const a = { value: 6, sensitivities: { gain: 6 } };
    const b = { value: 3, sensitivities: { gain: 3 } };
    const ratio = combine(2, [
      { input: a, derivative: 1 / 3 },
      { input: b, derivative: -6 / 9 },
    ]);
    expect(stateUncertainty(ratio, sourceTable([source('gain', 0.01, null)])).standardUncertainty).toBe(0);
  });

  it('states an exact value without a budget and without a NaN', () => {
    // Normal table, two-sided 95 %: 1.959963985.
    const stated = stateUncertainty(exactly(5), {});
    expect(stated).toMatchObject({ value: 5, standardUncertainty: 0, expandedUncertainty: 0, budget: [] });
    expect(stated.degreesOfFreedom).toBeNull();
    expectRelative(stated.coverageFactor, 1.959963985, 1e-9);
  });

  it('gathers what is too small to read in one last line', () => {
    // By hand: 0.01² and 0.02² against 1² are shares of 1e-4 and 4e-4.
    const sources = sourceTable([source('big', 1, null), source('small', 0.01, null), source('tiny', 0.02, null)]);
    const stated = stateUncertainty({ value: 0, sensitivities: { small: 1, big: 1, tiny: 1 } }, sources);
    expect(stated.budget.map(({ sourceId }) => sourceId)).toEqual(['big', 'smaller']);
    expectRelative(stated.budget[1]?.share ?? Number.NaN, 5e-4 / 1.0005, 1e-12);
    expect(stated.budget[1]?.label).toBe('2 smaller contributions together');
  });

  it('refuses a source that nobody declared, by name', () => {
    expect(() => stateUncertainty({ value: 0, sensitivities: { ghost: 1 } }, {})).toThrow(/ghost/);
    expect(() => sourceTable([source('a', 1, null), source('a', 2, null)])).toThrow(RangeError);
  });

  it('scales with its unit: shares and coverage stay (seed 43)', () => {
    const positive = fc.double({ min: 1e-3, max: 1e3, noNaN: true });
    fc.assert(
      fc.property(positive, positive, fc.double({ min: 1e-9, max: 1e9, noNaN: true }), (u, v, scale) => {
        const sources = sourceTable([source('u', u, 7), source('v', v, null)]);
        const plain = stateUncertainty({ value: 1, sensitivities: { u: 1, v: 1 } }, sources);
        const scaled = stateUncertainty({ value: scale, sensitivities: { u: scale, v: scale } }, sources);
        expectRelative(scaled.expandedUncertainty, scale * plain.expandedUncertainty, 1e-9);
        expectRelative(scaled.coverageFactor, plain.coverageFactor, 1e-9);
        expectRelative(plain.standardUncertainty, Math.hypot(u, v), 1e-12);
      }),
      { seed: 43, numRuns: 100 },
    );
  });
});
