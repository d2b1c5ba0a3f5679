/** What drives oil through a gap. */
export type GapDrive = { readonly dynamicViscosityPaS: number; readonly differentialPressurePa: number };

/**
 * Conductance of a plane gap, k = b h³/(12 L); its pressure flow is k Δp/µ.
 *
 * @param breadthM - b, across the flow [m]
 * @param heightM - h, zero or more [m]
 * @param lengthM - L, along the flow, > 0 [m]
 * @returns conductance [m³]
 *
 * Source: plane Poiseuille flow, any text of fluid mechanics.
 *
 * @example planeGapConductance(0.012, 1e-3, 1) // 1e-12
 */
export function planeGapConductance(breadthM: number, heightM: number, lengthM: number): number {
  return (breadthM * heightM ** 3) / (12 * lengthM);
}

/**
 * Conductance of an annular gap whose shaft lies off centre, k = π d c³ (1 + 1.5 ε²)/(12 L).
 *
 * @param diameterM - d of the shaft [m]
 * @param radialClearanceM - c, zero or more, thin against d [m]
 * @param lengthM - L, along the shaft, > 0 [m]
 * @param eccentricity - ε, off-centre distance over c, 0 to 1 [1]
 * @returns conductance; 2.5 times the concentric one where the shaft touches [m³]
 *
 * Source: the integral of the local h³ round the shaft, fluid power texts.
 */
export function annularGapConductance(
  diameterM: number,
  radialClearanceM: number,
  lengthM: number,
  eccentricity: number,
): number {
  return ((Math.PI * diameterM * radialClearanceM ** 3) / (12 * lengthM)) * (1 + 1.5 * eccentricity ** 2);
}

/**
 * Conductance between two flat discs, inwards or outwards, k = π h³/(6 ln(r₂/r₁)).
 *
 * @param heightM - h, zero or more [m]
 * @param innerRadiusM - r₁, > 0 [m]
 * @param outerRadiusM - r₂, > r₁ [m]
 * @returns conductance [m³]
 *
 * Source: hydrostatic bearing texts.
 */
export function discGapConductance(heightM: number, innerRadiusM: number, outerRadiusM: number): number {
  return (Math.PI * heightM ** 3) / (6 * Math.log(outerRadiusM / innerRadiusM));
}

/**
 * Conductance of the narrowest place between two round bodies, k = (2 b/(9π)) h^(5/2)/√(2 R): the plane gap integrated along
 * the parabola h + x²/(2R).
 *
 * @param breadthM - b, along their axes [m]
 * @param heightM - h where they come closest, zero or more [m]
 * @param relativeRadiusM - R: 1/R = 1/R₁ + 1/R₂, minus where one lies inside the other [m]
 * @returns conductance [m³]
 *
 * Source: derived here from ∫dx/(h + x²/(2R))³ = (3π/8) √(2R) h^(−5/2); no published source.
 */
export function rollGapConductance(breadthM: number, heightM: number, relativeRadiusM: number): number {
  return ((2 * breadthM) / (9 * Math.PI)) * ((heightM * heightM * Math.sqrt(heightM)) / Math.sqrt(2 * relativeRadiusM));
}

/**
 * Pressure flow through any laminar gap, q = k Δp/µ: in proportion to the pressure, against the viscosity, whatever the
 * speed.
 *
 * @param conductanceM3 - k of one of the gaps here [m³]
 * @param drive - viscosity > 0 and pressure difference [Pa s, Pa]
 * @returns flow [m³/s]
 * @throws RangeError if the viscosity is not above zero or a number is not finite
 *
 * Source: Wilson (1946), Trans. ASME 68: slip = C_s V/(2π) · Δp/µ.
 *
 * @example pressureFlow(1e-12, { dynamicViscosityPaS: 0.05, differentialPressurePa: 1e5 }) // 2e-6
 */
export function pressureFlow(conductanceM3: number, drive: GapDrive): number {
  const { dynamicViscosityPaS, differentialPressurePa } = drive;
  if (!(dynamicViscosityPaS > 0 && Number.isFinite(dynamicViscosityPaS))) {
    throw new RangeError(`dynamicViscosityPaS: ${dynamicViscosityPaS}, expected a number above zero`);
  }
  if (!Number.isFinite(conductanceM3 * differentialPressurePa)) {
    throw new RangeError(`conductance ${conductanceM3} m³ at ${differentialPressurePa} Pa: expected finite numbers`);
  }
  return (conductanceM3 * differentialPressurePa) / dynamicViscosityPaS;
}

/**
 * Oil that a moving wall carries through a gap, q = b h U/2, in the wall's direction.
 *
 * @param breadthM - b, across the motion [m]
 * @param heightM - h [m]
 * @param wallSpeedMPerS - U of the one wall that moves [m/s]
 * @returns flow in the direction of the wall [m³/s]
 *
 * Source: plane Couette flow, any text of fluid mechanics.
 *
 * @example dragFlow(0.02, 1e-4, 3) // 3e-6
 */
export function dragFlow(breadthM: number, heightM: number, wallSpeedMPerS: number): number {
  return (breadthM * heightM * wallSpeedMPerS) / 2;
}

/**
 * Reynolds number of a gap on its height and mean speed; the pressure flow and half the wall's speed count together:
 * Re = ρ (|q|/b + |U| h/2)/µ.
 *
 * @param oil - density and viscosity > 0 [kg/m³, Pa s]
 * @param flowPerBreadthM2PerS - pressure flow over the breadth, q/b [m²/s]
 * @param dragPerBreadthM2PerS - U h/2 [m²/s]
 * @returns Reynolds number [1]
 */
export function gapReynolds(
  oil: { readonly densityKgPerM3: number; readonly dynamicViscosityPaS: number },
  flowPerBreadthM2PerS: number,
  dragPerBreadthM2PerS: number,
): number {
  const { densityKgPerM3, dynamicViscosityPaS } = oil;
  return (densityKgPerM3 * (Math.abs(flowPerBreadthM2PerS) + Math.abs(dragPerBreadthM2PerS))) / dynamicViscosityPaS;
}

/**
 * Up to here a plane gap stays laminar whatever disturbs it, on its height and mean speed [1].
 * Source: Shimomukai and Kanda (2006), ETNA 23, 202: least critical Reynolds number between plates 1300 to 1400.
 */
export const LAMINAR_UP_TO_REYNOLDS = 1300;
