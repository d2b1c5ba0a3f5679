import type { SlipLaw } from '../result.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import type { DrainLaw } from './drainLaw.ts';
import { certainPoint, fittedFlow, flowAtUncertainPoint, type UncertainLawPoint } from './slipLaw.ts';

/**
 * Flow at the outlet port that the fitted laws give: what the pump draws in, less what leaves by the drain, at the
 * density of the outlet: q₂ = (q₁ − C_d Δp/µ)(1 − Δp/K). The oil is taken to leave as warm as it came.
 *
 * @param law - the fitted slip law, of the flow at the inlet [-]
 * @param drain - the fitted drain; null where the bench reads none and q₁ was formed without [-]
 * @param at - where it is spoken; the caller says so when it lies outside law.range [rev/s, Pa, Pa s, kg/m³]
 * @param bulkModulusPa - of the oil, the same that the holds were referred to the inlet with [Pa]
 * @returns q₂, sensitive to the laws, the point and the bulk modulus [m³/s]
 *
 * Source: conservation of mass, q₁ ρ₁ = q₂ ρ₂ + q_drain ρ₁, with ρ₁/ρ₂ = 1 − Δp/K as in the flow correction of ISO 4409
 * (from memory); JCGM 100:2008, 5.1.
 */
export function deliveredFlow(
  law: Pick<SlipLaw, 'coefficients' | 'uncertain'>,
  drain: Pick<DrainLaw, 'drainCoefficientM3'> | null,
  at: UncertainLawPoint,
  bulkModulusPa: Uncertain,
): Uncertain {
  const { differentialPressurePa, dynamicViscosityPaS } = at;
  const byLaw = fittedFlow(law, certainPoint(at));
  const regressorPerS = differentialPressurePa.value / dynamicViscosityPaS.value;
  const coefficientM3 = drain?.drainCoefficientM3.value ?? 0;
  const atInletM3PerS = byLaw.value - coefficientM3 * regressorPerS;
  const densityRatio = 1 - differentialPressurePa.value / bulkModulusPa.value;
  return combine(atInletM3PerS * densityRatio, [
    { input: byLaw, derivative: densityRatio },
    { input: flowAtUncertainPoint(law.coefficients, at), derivative: densityRatio },
    ...(drain === null ? [] : [{ input: drain.drainCoefficientM3, derivative: -regressorPerS * densityRatio }]),
    {
      input: differentialPressurePa,
      derivative: (-coefficientM3 / dynamicViscosityPaS.value) * densityRatio - atInletM3PerS / bulkModulusPa.value,
    },
    {
      input: dynamicViscosityPaS,
      derivative: ((coefficientM3 * regressorPerS) / dynamicViscosityPaS.value) * densityRatio,
    },
    { input: bulkModulusPa, derivative: (atInletM3PerS * differentialPressurePa.value) / bulkModulusPa.value ** 2 },
  ]);
}
