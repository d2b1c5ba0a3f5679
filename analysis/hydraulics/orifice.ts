/** A sharp-edged opening that oil is pressed through. */
export type Orifice = {
  /** C_d, > 0 and at most 1; about 0.6 for a sharp edge [1]. */
  readonly dischargeCoefficient: number;
  readonly areaM2: number;
};

/**
 * Flow through an orifice: Q = C_d A √(2 Δp/ρ), with the sign of Δp. Turbulent: at low Reynolds numbers C_d falls.
 *
 * @param orifice - discharge coefficient and area, > 0 [1, m²]
 * @param differentialPressurePa - upstream minus downstream, any sign [Pa]
 * @param densityKgPerM3 - of the oil, > 0 [kg/m³]
 * @returns flow [m³/s]
 * @throws RangeError if an input is not finite or outside its range
 *
 * Source: Bernoulli and continuity with a discharge coefficient; Merritt, Hydraulic Control Systems (1967), 3.3.
 *
 * @example orificeFlow({ dischargeCoefficient: 0.5, areaM2: 1e-4 }, 2e5, 1000) // 1e-3: by hand, √(2 · 2e5/1000) = 20 m/s
 */
export function orificeFlow(orifice: Orifice, differentialPressurePa: number, densityKgPerM3: number): number {
  const { dischargeCoefficient, areaM2 } = orifice;
  if (!(dischargeCoefficient > 0 && dischargeCoefficient <= 1)) {
    throw new RangeError(`orifice.dischargeCoefficient: ${dischargeCoefficient}, expected above 0 to 1`);
  }
  for (const [name, value] of [
    ['orifice.areaM2', areaM2],
    ['densityKgPerM3', densityKgPerM3],
  ] as const) {
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name}: ${value} is not a number above zero`);
  }
  if (!Number.isFinite(differentialPressurePa)) {
    throw new RangeError(`differentialPressurePa: ${differentialPressurePa} is not a finite number`);
  }
  const speedMPerS = Math.sqrt((2 * Math.abs(differentialPressurePa)) / densityKgPerM3);
  return Math.sign(differentialPressurePa) * dischargeCoefficient * areaM2 * speedMPerS;
}
