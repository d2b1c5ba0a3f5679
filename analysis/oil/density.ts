import { ICE_POINT_K } from '../units.ts';

/** Base temperature of the density that oil records state [K]. */
const BASE_TEMPERATURE_K = ICE_POINT_K + 15;

/** K₁ of lubricating oils for densities at 15 °C in kg/m³ [kg/(m³ K)]; 0.34878 belongs to °F and 60 °F. */
const K1_KG_PER_M3_PER_K = 0.6278;

/** Where the table of lubricating oils holds: −50 to 150 °C, 800.9 to 1163.5 kg/m³; limits of API MPMS 11.1:2004. */
export const DENSITY_LAW_LIMITS = {
  leastK: ICE_POINT_K - 50,
  mostK: ICE_POINT_K + 150,
  leastKgPerM3: 800.9,
  mostKgPerM3: 1163.5,
} as const;

/**
 * Density of a lubricating oil at a temperature: ρ = ρ₁₅ exp(−α Δt (1 + 0.8 α Δt)), α = K₁/ρ₁₅, Δt = t − 15 °C.
 *
 * @param densityAt15CKgPerM3 - density at 15 °C, 700 to 1200 [kg/m³]
 * @param temperatureK - where it is asked for [K]
 * @returns density [kg/m³]
 *
 * Source: API MPMS chapter 11.1 / ASTM D1250, generalised lubricating oils (table 54D).
 *
 * @example oilDensity(880, 288.15) // 880: at its own base temperature
 */
export function oilDensity(densityAt15CKgPerM3: number, temperatureK: number): number {
  const alphaPerK = K1_KG_PER_M3_PER_K / densityAt15CKgPerM3;
  const warmingK = temperatureK - BASE_TEMPERATURE_K;
  return densityAt15CKgPerM3 * Math.exp(-alphaPerK * warmingK * (1 + 0.8 * alphaPerK * warmingK));
}
