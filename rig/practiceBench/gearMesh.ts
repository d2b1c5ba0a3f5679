/** Two equal involute gears. */
export type GearGeometry = {
  readonly moduleM: number;
  /** Teeth of one gear. */
  readonly toothCount: number;
  readonly pressureAngleRad: number;
  readonly tipDiameterM: number;
  readonly centreDistanceM: number;
  readonly faceWidthM: number;
};

/** The practice pump as its strip sheet has it: an invented pump. */
export const PRACTICE_GEARS: GearGeometry = {
  moduleM: 0.003,
  toothCount: 12,
  pressureAngleRad: (20 * Math.PI) / 180,
  tipDiameterM: 0.042,
  centreDistanceM: 0.036,
  faceWidthM: 0.02,
};

export type GearMesh = {
  /** Volume displaced in one turn of the shaft, from the geometry alone. */
  readonly sweptVolumeM3PerRev: number;
  /** Instantaneous displacement per turn at a shaft angle counted in teeth; its mean is the swept volume. */
  readonly displacementM3PerRev: (tooth: number) => number;
  /** Volume displaced while the shaft turns from one angle to another, both counted in teeth: no ripple is lost between. */
  readonly displacedM3: (fromTooth: number, toTooth: number) => number;
};

/**
 * Displacement of two equal gears in mesh. The contact sits at s from the pitch point on the line of action, s running
 * from −p_b/2 to +p_b/2 while the shaft turns by one tooth (relief grooves switch at mid-mesh):
 * q = b ω (r_a² − r_w² − s²), whose mean over s gives V_g = 2π b (r_a² − r_w² − p_b²/12).
 *
 * @param gears - lengths [m], pressure angle [rad], teeth of one gear [1]
 * @returns swept volume and instantaneous displacement [m³/rev], volume between two angles [m³]
 *
 * Source: N. D. Manring and S. B. Kasaragadda (2003), ASME J. Dyn. Syst. Meas. Control 125, 396-404.
 */
export function createGearMesh(gears: GearGeometry): GearMesh {
  const basePitchM = Math.PI * gears.moduleM * Math.cos(gears.pressureAngleRad);
  const tipLessPitchM2 = (gears.tipDiameterM / 2) ** 2 - (gears.centreDistanceM / 2) ** 2;
  const perRevM = 2 * Math.PI * gears.faceWidthM;

  function displacementM3PerRev(tooth: number): number {
    const contactM = basePitchM * (tooth - Math.floor(tooth) - 0.5);
    return perRevM * (tipLessPitchM2 - contactM ** 2);
  }

  const sweptVolumeM3PerRev = perRevM * (tipLessPitchM2 - basePitchM ** 2 / 12);

  /** ∫ displacement d(tooth) from zero; whole teeth give the mean, the rest of a tooth the cubic. */
  function integral(tooth: number): number {
    const whole = Math.floor(tooth);
    const offset = tooth - whole - 0.5;
    const partial = tipLessPitchM2 * (offset + 0.5) - (basePitchM ** 2 * (offset ** 3 + 0.125)) / 3;
    return whole * sweptVolumeM3PerRev + perRevM * partial;
  }

  return {
    sweptVolumeM3PerRev,
    displacementM3PerRev,
    displacedM3: (fromTooth, toTooth) => (integral(toTooth) - integral(fromTooth)) / gears.toothCount,
  };
}
