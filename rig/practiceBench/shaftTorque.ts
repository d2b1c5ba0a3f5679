/** Torque of the oil's shear: c in c µ n [m³]. */
const VISCOUS_M3 = 0.22;
/** Dry friction: of seals and bearings, and as a share of the ideal torque: invented [N m], [1]. */
const SEALS_N_M = 0.08;
const LOADED_SHARE = 0.07;

/**
 * Torque at the shaft: ideal V Δp/(2π), shear of the oil, Coulomb friction.
 *
 * @param at - displacement [m³/rev], pressure difference [Pa], viscosity (0 for a dry pump) [Pa s], speed [rev/s]
 * @returns torque; 0 at rest [N m]
 *
 * Source: W. E. Wilson (1946), Trans. ASME 68.
 */
export function shaftTorqueNM(at: {
  readonly displacementM3PerRev: number;
  readonly differentialPressurePa: number;
  readonly dynamicViscosityPaS: number;
  readonly speedRevPerS: number;
}): number {
  if (at.speedRevPerS === 0) return 0;
  const idealNM = (at.displacementM3PerRev * at.differentialPressurePa) / (2 * Math.PI);
  return idealNM + VISCOUS_M3 * at.dynamicViscosityPaS * at.speedRevPerS + SEALS_N_M + LOADED_SHARE * Math.abs(idealNM);
}
