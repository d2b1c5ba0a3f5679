import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { colebrookFrictionFactor, haalandFrictionFactor } from '../../../analysis/hydraulics/frictionFactor.ts';
import { laminarPipeDrop, type Pipe, pipeDrop } from '../../../analysis/hydraulics/pipeFriction.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const SMOOTH: Pipe = { boreM: 0.025, lengthM: 1.2, roughnessM: 0, fittingsLossCoefficient: 0 };

describe('friction factors', () => {
  it('are those of Colebrook and of Haaland', () => {
    // Colebrook (1939) and Haaland (1983); the first pair read in a public test suite (CalebBell/fluids), all recomputed.
    expectRelative(colebrookFrictionFactor(1e5, 1e-4), 0.0185138661, 5e-9);
    expectRelative(colebrookFrictionFactor(5e4, 0.002), 0.0265055919, 5e-9);
    expectRelative(haalandFrictionFactor(1e5, 1e-4), 0.018265053, 5e-9);
    expectRelative(haalandFrictionFactor(5e4, 0.002), 0.026283222, 5e-9);
  });

  it('satisfy their own equation to double precision, wherever it holds (seed 48)', () => {
    fc.assert(
      fc.property(
        fc.double({ min: Math.log10(2300), max: 8, noNaN: true }),
        fc.double({ min: 0, max: 0.05, noNaN: true }),
        (logReynolds, roughness) => {
          const reynolds = 10 ** logReynolds;
          const root = Math.sqrt(colebrookFrictionFactor(reynolds, roughness));
          // The equation put back, no iteration: 1/√f = −2 log₁₀(ε/3.7 + 2.51/(Re √f)).
          expectRelative(-2 * Math.log10(roughness / 3.7 + 2.51 / (reynolds * root)), 1 / root, 1e-14);
        },
      ),
      { seed: 48, numRuns: 500 },
    );
  });

  it('lie within two per cent of each other in the turbulent range (seed 49)', () => {
    // Haaland (1983) claims 1.5 % from 4000 to 1e8, for relative roughness up to 0.05; a little more at its edges.
    fc.assert(
      fc.property(
        fc.double({ min: Math.log10(4000), max: 8, noNaN: true }),
        fc.double({ min: 1e-6, max: 0.05, noNaN: true }),
        (logReynolds, roughness) => {
          const reynolds = 10 ** logReynolds;
          expectRelative(
            haalandFrictionFactor(reynolds, roughness),
            colebrookFrictionFactor(reynolds, roughness),
            0.02,
          );
        },
      ),
      { seed: 49, numRuns: 300 },
    );
  });

  it('are refused outside their range', () => {
    for (const bad of [2000, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => colebrookFrictionFactor(bad, 0)).toThrow(/reynoldsNumber/);
    }
    for (const bad of [-1e-4, 0.06, Number.NaN])
      expect(() => haalandFrictionFactor(1e5, bad)).toThrow(/relativeRoughness/);
  });
});

describe('pipeDrop', () => {
  it('is that of Hagen and Poiseuille for a suction pipe with VG 46 at 40 °C', () => {
    // Worked from f = 64/Re: Q = 20 l/min, d = 25 mm, L = 1.2 m, 46 mm²/s, 870 kg/m³: v = 0.679061 m/s, Re = 369.055,
    // Δp = 1669.695 Pa.
    const fluid = { dynamicViscosityPaS: 46e-6 * 870, densityKgPerM3: 870 };
    const drop = pipeDrop(SMOOTH, fluid, 20e-3 / 60);
    expectRelative(drop.meanSpeedMPerS, 0.679061, 1e-6);
    expectRelative(drop.reynoldsNumber, 369.055, 1e-6);
    expectRelative(drop.pressureDropPa, 1669.695, 1e-6);
    expect(drop.regime).toBe('laminar');
    // The other form of the same law: (64/Re)(L/d) ρv²/2.
    const { reynoldsNumber, meanSpeedMPerS } = drop;
    expectRelative(
      (64 / reynoldsNumber) * (1.2 / 0.025) * ((870 * meanSpeedMPerS ** 2) / 2),
      drop.pressureDropPa,
      1e-12,
    );
  });

  it('follows a laminar textbook example', () => {
    // Munson, Young and Okiishi, Fundamentals of Fluid Mechanics, laminar pipe example (from memory, recomputed): 0.40 Pa s,
    // 900 kg/m³, 20 mm, 10 m, 2.0e-5 m³/s: V = 0.0636620 m/s, Re = 2.864789, Δp = 20.3718 kPa (book 20.4); no drop at a
    // slope of −13.34° (g = 9.81).
    const pipe = { ...SMOOTH, boreM: 0.02, lengthM: 10 };
    const drop = pipeDrop(pipe, { dynamicViscosityPaS: 0.4, densityKgPerM3: 900 }, 2e-5);
    expectRelative(drop.meanSpeedMPerS, 0.063662, 1e-5);
    expectRelative(drop.reynoldsNumber, 2.864789, 1e-6);
    expectRelative(drop.pressureDropPa, 20_371.8, 1e-5);
    expectRelative(laminarPipeDrop(pipe, 0.4, 2e-5), drop.pressureDropPa, 1e-12);
    const slopeDeg = (-Math.asin(drop.pressureDropPa / (900 * 9.81 * 10)) * 180) / Math.PI;
    expect(Math.abs(slopeDeg + 13.34)).toBeLessThan(0.005);
  });

  it('follows a turbulent textbook example', () => {
    // White, Fluid Mechanics, Moody-chart example (from memory, recomputed): oil of 900 kg/m³ and 1e-5 m²/s, 0.2 m³/s, 500 m,
    // 200 mm, roughness 0.26 mm, downhill at 10°: V = 6.3662 m/s, Re = 127 324, f = 0.022724, hf = 117.35 m (g = 9.81),
    // Δp = 269.5 kPa; the book, reading f off the chart: 117 m and 265 kPa.
    const pipe = { boreM: 0.2, lengthM: 500, roughnessM: 0.26e-3, fittingsLossCoefficient: 0 };
    const drop = pipeDrop(pipe, { dynamicViscosityPaS: 1e-5 * 900, densityKgPerM3: 900 }, 0.2);
    expectRelative(drop.meanSpeedMPerS, 6.3662, 1e-5);
    expectRelative(drop.reynoldsNumber, 127_324, 1e-5);
    expect(drop.regime).toBe('turbulent');
    expectRelative(drop.frictionDropPa / (2500 * ((900 * drop.meanSpeedMPerS ** 2) / 2)), 0.022724, 1e-4);
    const headM = drop.pressureDropPa / (900 * 9.81);
    expectRelative(headM, 117.35, 1e-4);
    const downhillPa = 900 * 9.81 * (headM - 500 * Math.sin(Math.PI / 18));
    expectRelative(downhillPa, 269_500, 2e-4);
    expectRelative(downhillPa, 265_000, 0.02);
  });

  it('adds fittings as a published system curve does', () => {
    // Hydraulic Institute data tool, worked system curve: f = 0.02, L = 382.5 m, D = 0.10226 m,
    // Σ K = 2·0.31 + 2.0 + 0.17 + 1.0 = 3.79: h/v² = 4.00608 s²/m with g = 9.81 (published 4.01), and 4.58260e-3 m per (m³/h)²
    // (published 4.59e-3). The roughness at which Colebrook gives f = 0.02 follows from it without iteration.
    const reynolds = 1e6;
    const roughness = 3.7 * (10 ** (-0.5 / Math.sqrt(0.02)) - 2.51 / (reynolds * Math.sqrt(0.02)));
    const pipe = { boreM: 0.10226, lengthM: 382.5, roughnessM: roughness * 0.10226, fittingsLossCoefficient: 3.79 };
    const speedMPerS = 3;
    const flowM3PerS = (speedMPerS * Math.PI * 0.10226 ** 2) / 4;
    const fluid = { dynamicViscosityPaS: (1000 * speedMPerS * 0.10226) / reynolds, densityKgPerM3: 1000 };
    const headM = pipeDrop(pipe, fluid, flowM3PerS).pressureDropPa / (1000 * 9.81);
    expectRelative(headM / speedMPerS ** 2, 4.00608, 1e-6);
    expectRelative(headM / speedMPerS ** 2, 4.01, 2e-3);
    expectRelative(headM / (flowM3PerS * 3600) ** 2, 4.5826e-3, 5e-6);
    expectRelative(headM / (flowM3PerS * 3600) ** 2, 4.59e-3, 2e-3);
  });

  it('says at rest, laminar, transitional or turbulent', () => {
    // By hand: Re = ρ v d/µ with v = 1 m/s in a bore of 25 mm and ρ = 1000: 25/µ.
    const flowM3PerS = (Math.PI * 0.025 ** 2) / 4;
    const regimeAt = (reynolds: number): string =>
      pipeDrop(SMOOTH, { dynamicViscosityPaS: 25 / reynolds, densityKgPerM3: 1000 }, flowM3PerS).regime;
    expect([2200, 2400, 3900, 4100].map(regimeAt)).toEqual(['laminar', 'transitional', 'transitional', 'turbulent']);
    const atRest = pipeDrop(SMOOTH, { dynamicViscosityPaS: 0.04, densityKgPerM3: 870 }, 0);
    expect(atRest).toMatchObject({ pressureDropPa: 0, reynoldsNumber: 0, regime: 'at rest' });
  });

  it('turns round with the flow, and grows with it (seed 50)', () => {
    const pipe = { ...SMOOTH, roughnessM: 45e-6, fittingsLossCoefficient: 2.5 };
    const flow = fc.double({ min: 1e-7, max: 1e-2, noNaN: true });
    fc.assert(
      fc.property(flow, flow, fc.double({ min: 1e-3, max: 2, noNaN: true }), (one, other, dynamicViscosityPaS) => {
        const dropAt = (flowM3PerS: number): number =>
          pipeDrop(pipe, { dynamicViscosityPaS, densityKgPerM3: 870 }, flowM3PerS).pressureDropPa;
        expect(dropAt(-one)).toBe(-dropAt(one));
        expect(dropAt(Math.max(one, other))).toBeGreaterThanOrEqual(dropAt(Math.min(one, other)));
      }),
      { seed: 50, numRuns: 300 },
    );
  });

  it('refuses what is no pipe, no oil and no flow', () => {
    const fluid = { dynamicViscosityPaS: 0.04, densityKgPerM3: 870 };
    expect(() => pipeDrop({ ...SMOOTH, boreM: 0 }, fluid, 1e-4)).toThrow(/boreM/);
    expect(() => pipeDrop({ ...SMOOTH, lengthM: Number.NaN }, fluid, 1e-4)).toThrow(/lengthM/);
    expect(() => pipeDrop({ ...SMOOTH, roughnessM: -1 }, fluid, 1e-4)).toThrow(/roughnessM/);
    expect(() => pipeDrop({ ...SMOOTH, fittingsLossCoefficient: -1 }, fluid, 1e-4)).toThrow(/fittingsLossCoefficient/);
    expect(() => pipeDrop(SMOOTH, { ...fluid, densityKgPerM3: 0 }, 1e-4)).toThrow(/densityKgPerM3/);
    expect(() => pipeDrop(SMOOTH, fluid, Number.NaN)).toThrow(/flowM3PerS/);
  });
});
