import type { PracticeSetUp } from './setUp.ts';

/** The oil at one temperature and atmospheric pressure. */
export type OilState = { readonly dynamicViscosityPaS: number; readonly densityKgPerM3: number };

export type Oil = (temperatureK: number) => OilState;

/** Cubic thermal expansion of a mineral oil, common practice, no source [1/K]. */
export const OIL_EXPANSION_PER_K = 7.2e-4;
const DENSITY_BASE_K = 288.15;

/** Bulk modulus of a mineral oil at 45 °C and how it falls with warmth: invented within what handbooks give [Pa, Pa/K]. */
const BULK_MODULUS_PA = 1.62e9;
const BULK_MODULUS_FALL_PA_PER_K = 6e6;
const BULK_MODULUS_BASE_K = 318.15;

/** Heat capacity of a mineral oil, common practice, no source [J/(kg K)]. */
export const OIL_HEAT_J_PER_KG_K = 1950;

function walther(kinematicViscosityM2PerS: number): number {
  return Math.log10(Math.log10(kinematicViscosityM2PerS * 1e6 + 0.7));
}

/**
 * Viscosity and density of the practice oil against temperature: a straight line of log log (ν + 0.7 mm²/s) over log T.
 *
 * @param setUp - two viscosities [m²/s] at two temperatures [K], and the density at 15 °C [kg/m³]
 * @returns a function of the temperature [K] that gives dynamic viscosity [Pa s] and density [kg/m³]
 *
 * Source: C. Walther (1931), the form that ASTM D341 uses from 2 mm²/s up; exponential expansion from 15 °C.
 */
export function createOil(setUp: Pick<PracticeSetUp, 'oilLower' | 'oilUpper' | 'densityAt15CKgPerM3'>): Oil {
  const { oilLower: lower, oilUpper: upper } = setUp;
  const slope =
    (walther(upper.kinematicViscosityM2PerS) - walther(lower.kinematicViscosityM2PerS)) /
    Math.log10(upper.temperatureK / lower.temperatureK);
  return (temperatureK) => {
    const line = walther(lower.kinematicViscosityM2PerS) + slope * Math.log10(temperatureK / lower.temperatureK);
    const kinematicViscosityM2PerS = (10 ** (10 ** line) - 0.7) * 1e-6;
    const densityKgPerM3 = setUp.densityAt15CKgPerM3 * Math.exp(-OIL_EXPANSION_PER_K * (temperatureK - DENSITY_BASE_K));
    return { dynamicViscosityPaS: kinematicViscosityM2PerS * densityKgPerM3, densityKgPerM3 };
  };
}

/**
 * How many times as dense a drop of oil is in one place as in another, ρ_to/ρ_from = exp(−β ΔT + Δp/K): exponential in
 * warmth and pressure, K at the mean temperature.
 *
 * @param from - temperature [K] and absolute pressure [Pa]
 * @param to - temperature [K] and absolute pressure [Pa]
 * @returns ratio of the densities; volume flow shrinks by it [1]
 *
 * Source: definitions of the expansion coefficient and the bulk modulus.
 */
export function densityRatio(
  from: { readonly temperatureK: number; readonly pressurePa: number },
  to: { readonly temperatureK: number; readonly pressurePa: number },
): number {
  const meanK = (from.temperatureK + to.temperatureK) / 2;
  const bulkPa = BULK_MODULUS_PA - BULK_MODULUS_FALL_PA_PER_K * (meanK - BULK_MODULUS_BASE_K);
  return Math.exp(
    -OIL_EXPANSION_PER_K * (to.temperatureK - from.temperatureK) + (to.pressurePa - from.pressurePa) / bulkPa,
  );
}
