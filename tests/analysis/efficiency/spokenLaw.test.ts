import { describe, expect, it } from 'vitest';
import { type Coefficients, lawRegressors } from '../../../analysis/delivery/slipLaw.ts';
import { beyondMeasured } from '../../../analysis/efficiency/measuredRange.ts';
import { mergeSources } from '../../../analysis/efficiency/mergeSources.ts';
import { type LawEvidence, spokenFlow } from '../../../analysis/efficiency/spokenLaw.ts';
import { spokenOil } from '../../../analysis/efficiency/spokenOil.ts';
import { oilState } from '../../../analysis/oil/oilState.ts';
import { exactly } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { exactEvidence, INVENTED_LAW, inventedLawRun, measured } from './inventedLawRun.ts';

const AT = { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 318.15 };

/** Slip of the laminar term at a temperature, C_l Δp/µ [m³/s]. */
function laminarSlip(law: Coefficients, oilTemperatureK: number): number {
  const { dynamicViscosityPaS } = oilState(INVENTED_VG46, oilTemperatureK);
  return (law.laminarSlipM3 * AT.differentialPressurePa) / dynamicViscosityPaS;
}

describe('a law spoken at a point', () => {
  it('gives what each term leaves of the theoretical flow', () => {
    // By hand: V n = 13.9e-6 · 15 = 2.085e-4; jets 5e-8 √(2 · 3e5/ρ).
    const { densityKgPerM3 } = oilState(INVENTED_VG46, AT.oilTemperatureK);
    const byHand = 2.085e-4 - laminarSlip(INVENTED_LAW, AT.oilTemperatureK) - 5e-8 * Math.sqrt(6e5 / densityKgPerM3);
    expectRelative(spokenFlow(exactEvidence(), AT).value, byHand, 1e-12);
  });

  it('takes drain and compression off on the way to the outlet', () => {
    // By hand: (q₁ − C_d Δp/µ)(1 − Δp/K), C_d a tenth of C_l, K = 1.5 GPa: 1 − 3e5/1.5e9.
    const drain = { drainCoefficientM3: exactly(0.22e-12) };
    const outlet: LawEvidence['outlet'] = { drain, bulkModulusPa: exactly(1.5e9) };
    const atInlet = spokenFlow(exactEvidence(), AT).value;
    const byHand = (atInlet - laminarSlip(INVENTED_LAW, AT.oilTemperatureK) / 10) * (1 - 3e5 / 1.5e9);
    expectRelative(spokenFlow({ ...exactEvidence(), outlet }, AT).value, byHand, 1e-12);
  });

  it('leaks laminar in proportion to the conductance of the gaps, and not through its jets', () => {
    const factor = { value: 1.5, sensitivities: { growth: 20 } };
    const [before, after] = [spokenFlow(exactEvidence(), AT), spokenFlow(exactEvidence(), AT, factor)];
    expectRelative(before.value - after.value, laminarSlip(INVENTED_LAW, AT.oilTemperatureK) / 2, 1e-9);
    // By hand: ∂q/∂growth = −C_l Δp/µ · 20.
    expectRelative(after.sensitivities.growth ?? 0, -20 * laminarSlip(INVENTED_LAW, AT.oilTemperatureK), 1e-9);
  });

  it('is the flow at the inlet where the evidence knows nothing of the outlet, to the last digit', () => {
    const { evidence, fit } = inventedLawRun(41, 0);
    const point = { ...AT, ...oilState(INVENTED_VG46, AT.oilTemperatureK) };
    const regressors = lawRegressors(point);
    const byHand =
      fit.coefficients.derivedCapacityM3PerRev * regressors.derivedCapacityM3PerRev +
      fit.coefficients.laminarSlipM3 * regressors.laminarSlipM3 +
      fit.coefficients.orificeSlipM2 * regressors.orificeSlipM2 +
      fit.coefficients.speedPressureSlipM3PerPa * regressors.speedPressureSlipM3PerPa;
    expectRelative(spokenFlow(evidence, AT).value, byHand, 1e-12);
  });
});

describe('the oil that a law is spoken with', () => {
  const run = inventedLawRun(42, 0);
  const hot = { ...AT, oilTemperatureK: 348.15 };

  it('cancels its error of viscosity against the law’s where it is the oil of the run', () => {
    // µ wrong by e at all temperatures: C_l is wrong by e, and C_l/µ is not wrong. Next to the slip nothing is left.
    const { sensitivities } = spokenFlow(run.evidence, hot);
    const slip = laminarSlip(run.fit.coefficients, hot.oilTemperatureK);
    expect(Math.abs(sensitivities['oil.viscosity'] ?? Number.NaN)).toBeLessThan(1e-6 * slip);
  });

  it('counts both errors where it is another', () => {
    // By hand: C_l carries the run oil’s error, −C_l Δp/µ; the other oil’s own enters as +C_l Δp/µ.
    const other = spokenOil({ ...INVENTED_VG46, name: 'another VG 46 (invented)' }, INVENTED_VG46);
    expect(other.isOfTheRun).toBe(false);
    const { sensitivities } = spokenFlow({ ...run.evidence, oil: other }, hot);
    const slip = laminarSlip(run.fit.coefficients, hot.oilTemperatureK);
    expectRelative(sensitivities['oil.viscosity'] ?? 0, -slip, 1e-6);
    expectRelative(sensitivities['other.oil.viscosity'] ?? 0, slip, 1e-9);
    expect(other.sources.map(({ label }) => label)).toContain('oil viscosity, measured (another VG 46 (invented))');
  });

  it('is the same oil by its numbers and name, not by its object', () => {
    expect(spokenOil({ ...INVENTED_VG46 }, INVENTED_VG46).isOfTheRun).toBe(true);
    expect(spokenOil({ ...INVENTED_VG46, densityAt15CKgPerM3: 881 }, INVENTED_VG46).isOfTheRun).toBe(false);
  });
});

describe('beyondMeasured', () => {
  const { evidence } = inventedLawRun(43, 0);

  it('allows set points their hundredth and the oil its two kelvin', () => {
    // By hand, holds 9 to 18.75 rev/s, 0.6 to 3.9 bar, 318.15 K: allowances 0.1875 rev/s, 0.039 bar, 2 K.
    expect(
      beyondMeasured(evidence, { speedRevPerS: 18.93, differentialPressurePa: 3.93e5, oilTemperatureK: 319.9 }),
    ).toEqual([]);
    expect(beyondMeasured(evidence, { ...AT, speedRevPerS: 18.95 })).toEqual(['speed']);
    expect(beyondMeasured(evidence, { ...AT, speedRevPerS: 8.8 })).toEqual(['speed']);
    expect(beyondMeasured(evidence, { ...AT, differentialPressurePa: 3.95e5 })).toEqual(['pressure']);
  });

  it('names temperature and viscosity apart', () => {
    // At 321 K the oil is thinner than at 318.15 K by less than the allowed tenth or more: D341 says 46 to 6.8 mm²/s over 60 K,
    // some 4 % a kelvin here, so 2.85 K are over a tenth.
    expect(beyondMeasured(evidence, { ...AT, oilTemperatureK: 321 })).toEqual(['temperature', 'viscosity']);
    // Another oil of twice the viscosity at the run’s own temperature.
    const thick = {
      ...INVENTED_VG46,
      name: 'thick (invented)',
      lower: { temperatureK: 313.15, kinematicViscosityM2PerS: 92e-6 },
      upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 13.6e-6 },
    };
    expect(beyondMeasured({ ...evidence, oil: spokenOil(thick, INVENTED_VG46) }, AT)).toEqual(['viscosity']);
  });
});

describe('mergeSources', () => {
  it('keeps a source that two lists name once, and refuses one name for two', () => {
    const { source } = measured('gauge', 1, 0.1);
    expect(Object.keys(mergeSources([source], [{ ...source, label: 'by another name' }]))).toEqual(['gauge']);
    expect(() => mergeSources([source], [{ ...source, standardUncertainty: 0.2 }])).toThrow(/gauge stands for two/);
  });
});
