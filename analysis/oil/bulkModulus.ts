/** Pressure at which the fraction of free air is stated: one standard atmosphere [Pa]. */
const STATED_AT_PA = 101_325;

/** An oil with air bubbles in it. */
export type AeratedOil = {
  /** Tangent bulk modulus of the oil without bubbles, > 0 [Pa]. */
  readonly liquidBulkModulusPa: number;
  /** Volume of free air over the whole volume, both at 101 325 Pa absolute, 0 to below 1 [1]. */
  readonly freeAirFraction: number;
  /** 1: the bubbles change slowly and stay at the oil's temperature; 1.4: fast, without exchange of heat [1]. */
  readonly polytropicExponent: number;
};

/**
 * Effective (tangent) bulk modulus of an oil with free air, K_e = −V dp/dV of the mixture: with a₀ the fraction of free
 * air at p₀ = 101 325 Pa, V_g = a₀ (p₀/p)^(1/n), V_l = (1 − a₀)(1 − (p − p₀)/K),
 * K_e = (V_l + V_g)/((1 − a₀)/K + V_g/(n p)). No air dissolves or comes out of solution on the way from p₀ to p: at low
 * pressures textbooks that let it differ by tens of per cent.
 *
 * @param oil - oil and its air [Pa, 1, 1]
 * @param pressurePa - absolute, > 0 and less than p₀ + K [Pa]
 * @returns effective bulk modulus [Pa]
 * @throws RangeError if modulus, fraction, exponent (1 to 1.4) or pressure lies outside its range
 *
 * Source: mixture of a liquid of constant modulus and a polytropic gas; derived here, as in Merritt, Hydraulic Control
 * Systems (1967), and Wylie and Streeter, Fluid Transients, in substance.
 *
 * @example effectiveBulkModulus({ liquidBulkModulusPa: 1.6e9, freeAirFraction: 0, polytropicExponent: 1 }, 101325) // 1.6e9: no air
 */
export function effectiveBulkModulus(oil: AeratedOil, pressurePa: number): number {
  const { liquidBulkModulusPa, freeAirFraction, polytropicExponent } = oil;
  if (!(Number.isFinite(liquidBulkModulusPa) && liquidBulkModulusPa > 0)) {
    throw new RangeError(`oil.liquidBulkModulusPa: ${liquidBulkModulusPa} is not a number above zero`);
  }
  if (!(freeAirFraction >= 0 && freeAirFraction < 1)) {
    throw new RangeError(`oil.freeAirFraction: ${freeAirFraction}, expected 0 to below 1`);
  }
  if (!(polytropicExponent >= 1 && polytropicExponent <= 1.4)) {
    throw new RangeError(`oil.polytropicExponent: ${polytropicExponent}, expected 1 to 1.4`);
  }
  if (!(pressurePa > 0 && pressurePa - STATED_AT_PA < liquidBulkModulusPa)) {
    throw new RangeError(`pressurePa: ${pressurePa}, expected above zero and below p₀ + K`);
  }
  const liquidShare = 1 - freeAirFraction;
  const gasVolume = freeAirFraction * (STATED_AT_PA / pressurePa) ** (1 / polytropicExponent);
  const liquidVolume = liquidShare * (1 - (pressurePa - STATED_AT_PA) / liquidBulkModulusPa);
  const compliancePerPa = liquidShare / liquidBulkModulusPa + gasVolume / (polytropicExponent * pressurePa);
  return (liquidVolume + gasVolume) / compliancePerPa;
}
