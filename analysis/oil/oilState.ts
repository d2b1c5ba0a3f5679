import type { OilRecord } from '../records/oilRecord.ts';
import { DENSITY_LAW_LIMITS, oilDensity } from './density.ts';
import { kinematicViscosity, viscosityLawRange } from './viscosity.ts';

export type OilState = {
  readonly kinematicViscosityM2PerS: number;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
  /**
   * Outside the range of validity: hotter or colder than the oil's own two points (below them wax may thicken it), or
   * outside the limits that D341 (0.21 to 2·10⁷ mm²/s) and MPMS 11.1 (−50 to 150 °C, 800.9 to 1163.5 kg/m³) set themselves.
   */
  readonly isExtrapolated: boolean;
};

/**
 * Viscosities and density of an oil at a temperature; µ = ν ρ. At atmospheric pressure: what pressure adds is not in it.
 *
 * @param oil - two viscosities and the density at 15 °C [-]
 * @param temperatureK - temperature, > 0 [K]
 * @returns kinematic and dynamic viscosity, density [m²/s, Pa s, kg/m³], and whether they are extrapolated [-]
 * @throws RangeError if the temperature is not a number above zero, or so far out that no viscosity is left
 *
 * Source: ASTM D341 (viscosity), API MPMS 11.1 (density).
 */
export function oilState(oil: OilRecord, temperatureK: number): OilState {
  const kinematicViscosityM2PerS = kinematicViscosity(oil.lower, oil.upper, temperatureK);
  const densityKgPerM3 = oilDensity(oil.densityAt15CKgPerM3, temperatureK);
  const law = viscosityLawRange(oil.lower, oil.upper);
  const leastK = Math.max(oil.lower.temperatureK, law.leastK, DENSITY_LAW_LIMITS.leastK);
  const mostK = Math.min(oil.upper.temperatureK, law.mostK, DENSITY_LAW_LIMITS.mostK);
  const { leastKgPerM3, mostKgPerM3 } = DENSITY_LAW_LIMITS;
  const isTabulatedDensity = oil.densityAt15CKgPerM3 >= leastKgPerM3 && oil.densityAt15CKgPerM3 <= mostKgPerM3;
  return {
    kinematicViscosityM2PerS,
    dynamicViscosityPaS: kinematicViscosityM2PerS * densityKgPerM3,
    densityKgPerM3,
    isExtrapolated: !(temperatureK >= leastK && temperatureK <= mostK && isTabulatedDensity),
  };
}
