/** A kinematic viscosity at a temperature. */
export type ViscosityPoint = { readonly temperatureK: number; readonly kinematicViscosityM2PerS: number };

const M2_PER_S_PER_MM2_PER_S = 1e-6;

/** From here up the low-viscosity terms of the standard are below its own precision [mm²/s]. */
const PLAIN_FROM_MM2_PER_S = 2;

/** Z of ASTM D341 from a viscosity [mm²/s]. */
function zFrom(mm2PerS: number): number {
  const extension = mm2PerS >= PLAIN_FROM_MM2_PER_S ? 0 : Math.exp(-1.47 - 1.84 * mm2PerS - 0.51 * mm2PerS ** 2);
  return mm2PerS + 0.7 + extension;
}

/** Viscosity from Z of ASTM D341 [mm²/s]; below 2 mm²/s the standard's approximate inverse. */
function mm2PerSFrom(z: number): number {
  const plain = z - 0.7;
  if (plain >= PLAIN_FROM_MM2_PER_S) return plain;
  return plain - Math.exp(-0.7487 - 3.295 * plain + 0.6119 * plain ** 2 - 0.3193 * plain ** 3);
}

/**
 * Kinematic viscosity at a temperature by ASTM D341 from two measured points:
 * log₁₀ log₁₀ Z = A − B log₁₀ T, Z = ν + 0.7 (ν in mm²/s, T in K), with the standard's extension below 2 mm²/s.
 *
 * @param lower - the point at the lower temperature [K, m²/s]
 * @param upper - the point at the higher temperature, thinner than the lower [K, m²/s]
 * @param temperatureK - where the viscosity is asked for, > 0 [K]
 * @returns kinematic viscosity [m²/s]
 * @throws RangeError if a temperature is not a number above zero
 *
 * Source: ASTM D341 (viscosity-temperature equations), after Walther.
 */
export function kinematicViscosity(lower: ViscosityPoint, upper: ViscosityPoint, temperatureK: number): number {
  if (!(Number.isFinite(temperatureK) && temperatureK > 0)) {
    throw new RangeError(`temperatureK: ${temperatureK} is not a temperature above 0 K`);
  }
  const ordinate = (point: ViscosityPoint): number =>
    Math.log10(Math.log10(zFrom(point.kinematicViscosityM2PerS / M2_PER_S_PER_MM2_PER_S)));
  const lowerLog = Math.log10(lower.temperatureK);
  const slope = (ordinate(lower) - ordinate(upper)) / (Math.log10(upper.temperatureK) - lowerLog);
  const ordinateHere = ordinate(lower) - slope * (Math.log10(temperatureK) - lowerLog);
  return mm2PerSFrom(10 ** (10 ** ordinateHere)) * M2_PER_S_PER_MM2_PER_S;
}
