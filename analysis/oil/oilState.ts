import type { OilRecord } from '../records/oilRecord.ts';
import { oilDensity } from './density.ts';
import { kinematicViscosity } from './viscosity.ts';

export type OilState = {
  readonly kinematicViscosityM2PerS: number;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
};

/**
 * Viscosities and density of an oil at a temperature; µ = ν ρ.
 *
 * @param oil - two viscosities and the density at 15 °C [-]
 * @param temperatureK - temperature, > 0 [K]
 * @returns kinematic and dynamic viscosity, density [m²/s, Pa s, kg/m³]
 * @throws RangeError if the temperature is not a number above zero
 *
 * Source: ASTM D341 (viscosity), API MPMS 11.1 (density).
 */
export function oilState(oil: OilRecord, temperatureK: number): OilState {
  const kinematicViscosityM2PerS = kinematicViscosity(oil.lower, oil.upper, temperatureK);
  const densityKgPerM3 = oilDensity(oil.densityAt15CKgPerM3, temperatureK);
  return {
    kinematicViscosityM2PerS,
    dynamicViscosityPaS: kinematicViscosityM2PerS * densityKgPerM3,
    densityKgPerM3,
  };
}
