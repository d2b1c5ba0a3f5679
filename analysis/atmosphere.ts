import { no, type Outcome, yes } from './outcome.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from './units.ts';

const SEA_LEVEL_PRESSURE_PA = 101_325;
const SEA_LEVEL_TEMPERATURE_K = 288.15;
const LAPSE_K_PER_M = 0.0065;
const AIR_J_PER_KG_K = 287.05287;
const EARTH_RADIUS_M = 6_356_766;

/** The lowest layer of the standard, where temperature falls evenly; no workshop stands higher [m, geopotential]. */
const LAYER = { lowestM: -2000, highestM: 11_000 } as const;

export type Atmosphere = {
  readonly pressurePa: number;
  readonly temperatureK: number;
  readonly densityKgPerM3: number;
};

export type AltitudeRefusal = {
  readonly code: 'ALTITUDE_OUT_OF_RANGE';
  readonly quantity: string;
  readonly value: number;
  readonly limit: number;
  readonly text: string;
};

/**
 * Standard atmosphere at a geopotential altitude: T = T₀ − L H, p = p₀ (T/T₀)^(g₀/(R L)), ρ = p/(R T), with
 * p₀ = 101 325 Pa, T₀ = 288.15 K, L = 6.5 K/km, R = 287.05287 J/(kg K). The weather moves the real pressure by ±3 % about
 * it: a barometer is better.
 *
 * @param geopotentialAltitudeM - altitude above sea level, −2000 to 11 000 [m]
 * @returns pressure, temperature and density of dry air [Pa, K, kg/m³], or that the altitude is out of range [-]
 * @throws RangeError if the altitude is NaN
 *
 * Source: ISO 2533:1975, layer from −2 to 11 km (the same as the ICAO standard atmosphere).
 */
export function standardAtmosphere(geopotentialAltitudeM: number): Outcome<Atmosphere, AltitudeRefusal> {
  if (Number.isNaN(geopotentialAltitudeM)) throw new RangeError('geopotentialAltitudeM: NaN is not an altitude');
  const { lowestM, highestM } = LAYER;
  if (geopotentialAltitudeM < lowestM || geopotentialAltitudeM > highestM) {
    return no({
      code: 'ALTITUDE_OUT_OF_RANGE',
      quantity: 'geopotential altitude [m]',
      value: geopotentialAltitudeM,
      limit: geopotentialAltitudeM < lowestM ? lowestM : highestM,
      text: `an altitude of ${geopotentialAltitudeM.toFixed(0)} m is outside the layer of the standard atmosphere used here, ${lowestM} to ${highestM} m`,
    });
  }
  const temperatureK = SEA_LEVEL_TEMPERATURE_K - LAPSE_K_PER_M * geopotentialAltitudeM;
  const exponent = STANDARD_GRAVITY_M_PER_S2 / (AIR_J_PER_KG_K * LAPSE_K_PER_M);
  const pressurePa = SEA_LEVEL_PRESSURE_PA * (temperatureK / SEA_LEVEL_TEMPERATURE_K) ** exponent;
  return yes({ pressurePa, temperatureK, densityKgPerM3: pressurePa / (AIR_J_PER_KG_K * temperatureK) });
}

/**
 * Geopotential altitude of a geometric one, as a map gives it: H = r z/(r + z), r = 6356.766 km; 0.3 m less at 1400 m.
 *
 * @param geometricAltitudeM - height above sea level, above −r [m]
 * @returns geopotential altitude [m]
 * @throws RangeError if the altitude is not a finite number above −r
 *
 * Source: ISO 2533:1975, 2.3.
 *
 * @example geopotentialAltitude(0) // 0: both begin at the sea
 */
export function geopotentialAltitude(geometricAltitudeM: number): number {
  if (!(Number.isFinite(geometricAltitudeM) && geometricAltitudeM > -EARTH_RADIUS_M)) {
    throw new RangeError(`geometricAltitudeM: ${geometricAltitudeM}, expected a number above −${EARTH_RADIUS_M}`);
  }
  return (EARTH_RADIUS_M * geometricAltitudeM) / (EARTH_RADIUS_M + geometricAltitudeM);
}
