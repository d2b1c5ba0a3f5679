/** Where ASTM D341 says of itself that it holds [m²/s]; from memory of the standard. */
const VISCOSITY_LAW_LIMITS = { leastM2PerS: 0.21e-6, mostM2PerS: 20 } as const;

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

/** log₁₀ log₁₀ Z, which falls on a straight line against log₁₀ T. */
function ordinateOf(kinematicViscosityM2PerS: number): number {
  return Math.log10(Math.log10(zFrom(kinematicViscosityM2PerS / M2_PER_S_PER_MM2_PER_S)));
}

/** The line through two points: its ordinate falls by `slope` for each unit of log₁₀ T. */
function lineThrough(lower: ViscosityPoint, upper: ViscosityPoint) {
  const [lowerLog, upperLog] = [Math.log10(lower.temperatureK), Math.log10(upper.temperatureK)];
  const lowerOrdinate = ordinateOf(lower.kinematicViscosityM2PerS);
  const slope = (lowerOrdinate - ordinateOf(upper.kinematicViscosityM2PerS)) / (upperLog - lowerLog);
  return { lowerLog, lowerOrdinate, slope };
}

/**
 * Kinematic viscosity at a temperature by ASTM D341 from two measured points:
 * log₁₀ log₁₀ Z = A − B log₁₀ T, Z = ν + 0.7 (ν in mm²/s, T in K), with the standard's extension below 2 mm²/s.
 *
 * @param lower - the point at the lower temperature [K, m²/s]
 * @param upper - the point at the higher temperature, thinner than the lower [K, m²/s]
 * @param temperatureK - where the viscosity is asked for, > 0 [K]
 * @returns kinematic viscosity [m²/s]
 * @throws RangeError if the temperature is not a number above zero, or so far from the points that no viscosity is left
 *
 * Source: ASTM D341 (viscosity-temperature equations), after Walther.
 */
export function kinematicViscosity(lower: ViscosityPoint, upper: ViscosityPoint, temperatureK: number): number {
  if (!(Number.isFinite(temperatureK) && temperatureK > 0)) {
    throw new RangeError(`temperatureK: ${temperatureK} is not a temperature above 0 K`);
  }
  const { lowerLog, lowerOrdinate, slope } = lineThrough(lower, upper);
  const ordinateHere = lowerOrdinate - slope * (Math.log10(temperatureK) - lowerLog);
  const mm2PerS = mm2PerSFrom(10 ** (10 ** ordinateHere));
  if (!(Number.isFinite(mm2PerS) && mm2PerS > 0)) {
    throw new RangeError(`temperatureK: at ${temperatureK} K the law of these two points gives no viscosity`);
  }
  return mm2PerS * M2_PER_S_PER_MM2_PER_S;
}

/**
 * Temperatures between which the law of two points stays within the limits of ASTM D341, 0.21 to 2·10⁷ mm²/s.
 *
 * @param lower - the point at the lower temperature [K, m²/s]
 * @param upper - the point at the higher temperature, thinner than the lower [K, m²/s]
 * @returns lowest and highest temperature; infinite where a nearly flat law never leaves the limits [K]
 *
 * Source: ASTM D341, solved for the temperature.
 */
export function viscosityLawRange(
  lower: ViscosityPoint,
  upper: ViscosityPoint,
): { readonly leastK: number; readonly mostK: number } {
  const { lowerLog, lowerOrdinate, slope } = lineThrough(lower, upper);
  const temperatureAtK = (viscosityM2PerS: number): number =>
    10 ** (lowerLog + (lowerOrdinate - ordinateOf(viscosityM2PerS)) / slope);
  return {
    leastK: temperatureAtK(VISCOSITY_LAW_LIMITS.mostM2PerS),
    mostK: temperatureAtK(VISCOSITY_LAW_LIMITS.leastM2PerS),
  };
}
