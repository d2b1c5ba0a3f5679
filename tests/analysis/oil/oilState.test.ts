import { describe, expect, it } from 'vitest';
import { checkedOilState } from '../../../analysis/oil/checkedOilState.ts';
import { oilDensity } from '../../../analysis/oil/density.ts';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { oilSources, oilStateAt } from '../../../analysis/oil/oilStateAt.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';

describe('oilDensity', () => {
  it('follows the table for lubricating oils', () => {
    // API MPMS 11.1 / ASTM D1250 table 54D, from memory of it, recomputed: 880 kg/m³ at 15 °C is 864.224 at 40 °C and
    // 851.495 at 60 °C; 850 is 834.221 at 40 °C. With the constant of the Fahrenheit table, 0.34878, it would be 864.6
    // at 60 °C: half the expansion.
    expect(Math.abs(oilDensity(880, 313.15) - 864.224)).toBeLessThan(0.005);
    expect(Math.abs(oilDensity(880, 333.15) - 851.495)).toBeLessThan(0.005);
    expect(Math.abs(oilDensity(850, 313.15) - 834.221)).toBeLessThan(0.005);
    expect(oilDensity(880, 288.15)).toBe(880);
  });

  it('agrees with the Fahrenheit form of the same table', () => {
    // API MPMS 11.1:2004, table 6C: 880 kg/m³ at 60 °F has CTL 0.9824730 at 104 °F (40 °C) and 0.9680111 at 140 °F (60 °C).
    // 60 °F is 15 °C + 5/9 K, so ρ₁₅ = 880 + 0.6278 · 5/9 = 880.349. The law's square term is tied to its base: moving that
    // by δ = 5/9 K costs about α² δ Δt, 7e-6 and 1.3e-5. The Fahrenheit constant used with °C would be 8e-3 off.
    const densityAt60F = oilDensity(880.349, 288.15 + 5 / 9);
    expectRelative(densityAt60F, 880, 1e-6);
    expectRelative(oilDensity(880.349, 313.15) / densityAt60F, 0.982473, 7e-6);
    expectRelative(oilDensity(880.349, 333.15) / densityAt60F, 0.9680111, 1.3e-5);
  });
});

describe('oilState', () => {
  it('multiplies kinematic viscosity by density', () => {
    // ASTM D341: 46 mm²/s at its own lower point; density there 864.224 kg/m³ (API MPMS 11.1, recomputed);
    // by hand: 46e-6 · 864.224 = 0.03975430 Pa s.
    const state = oilState(INVENTED_VG46, 313.15);
    expectRelative(state.kinematicViscosityM2PerS, 46e-6, 1e-12);
    expectRelative(state.dynamicViscosityPaS, 0.0397543, 1e-5);
  });

  it('refuses what is no temperature', () => {
    for (const bad of [0, -5, Number.NaN, Number.POSITIVE_INFINITY]) {
      expect(() => oilState(INVENTED_VG46, bad)).toThrow(RangeError);
    }
  });

  it('says where it is extrapolated: outside the two points of the oil', () => {
    // By definition: known at 40 and 100 °C; API MPMS 11.1:2004 ends at 150 °C and begins at 800.9 kg/m³.
    const extrapolatedAt = (celsius: number, oil = INVENTED_VG46): boolean =>
      oilState(oil, celsius + 273.15).isExtrapolated;
    expect([20, 40, 70, 100, 120].map((celsius) => extrapolatedAt(celsius))).toEqual([true, false, false, false, true]);
    const hotPoint = { temperatureK: 440, kinematicViscosityM2PerS: 1.5e-6 };
    expect(extrapolatedAt(149, { ...INVENTED_VG46, upper: hotPoint })).toBe(false);
    expect(extrapolatedAt(151, { ...INVENTED_VG46, upper: hotPoint })).toBe(true);
    expect(extrapolatedAt(70, { ...INVENTED_VG46, densityAt15CKgPerM3: 780 })).toBe(true);
  });

  it('multiplies as a worked figure does', () => {
    // By hand: 46 mm²/s · 870 kg/m³ = 40.02 mPa s, at 15 °C, where the density of the record is the density.
    const lower = { temperatureK: 288.15, kinematicViscosityM2PerS: 46e-6 };
    const state = oilState({ ...INVENTED_VG46, lower, densityAt15CKgPerM3: 870 }, 288.15);
    expectRelative(state.dynamicViscosityPaS, 0.04002, 1e-12);
  });
});

describe('checkedOilState', () => {
  it('is the oil state where there is one, marked where it is extrapolated', () => {
    expect(checkedOilState(INVENTED_VG46, 333.15)).toEqual({ ok: true, value: oilState(INVENTED_VG46, 333.15) });
    expect(checkedOilState(INVENTED_VG46, 283.15)).toMatchObject({ ok: true, value: { isExtrapolated: true } });
  });

  it('refuses an oil that is thicker when hotter, and points in the wrong order', () => {
    expect(
      checkedOilState({ ...INVENTED_VG46, lower: { ...INVENTED_VG46.lower, kinematicViscosityM2PerS: 6e-6 } }, 320),
    ).toMatchObject({
      ok: false,
      reason: { code: 'NOT_THINNER_WHEN_HOTTER', value: 6.8e-6, limit: 6e-6 },
    });
    expect(
      checkedOilState({ ...INVENTED_VG46, upper: { ...INVENTED_VG46.upper, temperatureK: 300 } }, 320),
    ).toMatchObject({
      ok: false,
      reason: { code: 'TEMPERATURES_NOT_RISING', value: 300, limit: 313.15 },
    });
  });

  it('refuses a temperature where its laws end', () => {
    // API MPMS 11.1:2004: −50 to 150 °C.
    expect(checkedOilState(INVENTED_VG46, 423.2)).toMatchObject({
      ok: false,
      reason: { code: 'TEMPERATURE_OUT_OF_RANGE', value: 423.2, limit: 423.15 },
    });
    const tooCold = checkedOilState(INVENTED_VG46, 200);
    if (tooCold.ok || tooCold.reason.code === 'UNKNOWN_GRADE') throw new Error('expected a limit');
    expectRelative(tooCold.reason.limit, 223.15, 1e-12);
    expect(() => checkedOilState(INVENTED_VG46, Number.NaN)).toThrow(RangeError);
  });

  it('refuses a temperature at which two odd points give no viscosity, however steep their law', () => {
    // ASTM D341 ends at 0.21 and 2e7 mm²/s. 300 mm²/s at 40 °C and 3 at 42 °C is no oil: at 0 °C it would be past all bounds.
    const steep = {
      ...INVENTED_VG46,
      lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 3e-4 },
      upper: { temperatureK: 315.15, kinematicViscosityM2PerS: 3e-6 },
    };
    for (const temperatureK of [230, 273.15, 400]) {
      const refused = checkedOilState(steep, temperatureK);
      expect(refused).toMatchObject({ ok: false, reason: { code: 'TEMPERATURE_OUT_OF_RANGE', value: temperatureK } });
      if (refused.ok || refused.reason.code === 'UNKNOWN_GRADE') throw new Error('expected a limit');
      expect(refused.reason.limit).toBeGreaterThan(300);
      expect(refused.reason.limit).toBeLessThan(330);
    }
    expect(() => oilState(steep, 230)).toThrow(/no viscosity/);
  });
});

describe('oilStateAt', () => {
  it('passes an error of temperature on by the slope of the law', () => {
    // By hand from D341 and MPMS 11.1 at 40 °C: with Z = 46.7, dν/dT = −B Z ln Z/T = −3.6844415 · 46.7 · 3.8437/313.15
    // = −2.11196 mm²/s/K; dρ/dT = −α ρ (1 + 1.6 α Δt), α = 0.6278/880 = 7.13409e-4: −0.6341 kg/m³/K.
    const { dynamicViscosityPaS, densityKgPerM3 } = oilStateAt(INVENTED_VG46, {
      value: 313.15,
      sensitivities: { t: 1 },
    });
    const slope = -2.11196e-6 * densityKgPerM3.value + 46e-6 * -0.6341;
    expectRelative(dynamicViscosityPaS.sensitivities.t ?? Number.NaN, slope, 1e-4);
    expectRelative(densityKgPerM3.sensitivities.t ?? Number.NaN, -0.6341, 1e-3);
  });

  it('carries the relative errors of viscosity and density as sources of their own', () => {
    const { dynamicViscosityPaS, densityKgPerM3 } = oilStateAt(INVENTED_VG46, exactly(313.15));
    expect(dynamicViscosityPaS.sensitivities).toEqual({ 'oil.viscosity': dynamicViscosityPaS.value });
    expect(densityKgPerM3.sensitivities).toEqual({ 'oil.density': densityKgPerM3.value });
    expect(oilSources(INVENTED_VG46).map(({ id, standardUncertainty }) => [id, standardUncertainty])).toEqual([
      ['oil.viscosity', 0.01],
      ['oil.density', 0.002],
    ]);
  });

  it('says whether the viscosity was measured or read off the can', () => {
    expect(oilSources(INVENTED_VG46)[0]?.shape).toBe('normal');
    const fromTheCan = oilSources({ ...INVENTED_VG46, viscosityBasis: 'grade' })[0];
    expect(fromTheCan?.shape).toBe('rectangular');
    expect(fromTheCan?.label).toContain('can');
  });
});
