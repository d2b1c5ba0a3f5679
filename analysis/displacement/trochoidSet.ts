import type { TrochoidGeometry } from '../records/geometry/trochoid.ts';

/** A trochoid rotor set: an inner rotor of N teeth in an outer one of N + 1 lobes that are arcs of circles. */
export type TrochoidSet = {
  readonly innerToothCount: number;
  /** Distance of a lobe's centre of arc from the outer rotor's axis. */
  readonly arcCentreRadiusM: number;
  /** Radius of a lobe's arc. */
  readonly lobeRadiusM: number;
  readonly eccentricityM: number;
  readonly widthM: number;
};

/** Strips of Simpson's rule over one integral: the integrands are smooth, the error is below 1e-10. */
const STRIPS = 64;

/** Shaft positions at which the ripple is looked for. */
const RIPPLE_POSITIONS = 240;

/**
 * The rotors of a trochoid pump.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns the lengths that the formulas use [m]
 */
export function trochoidSet(geometry: TrochoidGeometry): TrochoidSet {
  return {
    innerToothCount: geometry.innerToothCount,
    arcCentreRadiusM: geometry.lobeTopCircleDiameterM.value / 2 + geometry.lobeRadiusM.value,
    lobeRadiusM: geometry.lobeRadiusM.value,
    eccentricityM: geometry.eccentricityM.value,
    widthM: geometry.widthM.value,
  };
}

/**
 * Rolling circle of the outer rotor, r_2 = (N + 1) e.
 *
 * @param set - the rotors [m]
 * @returns its radius [m]
 */
export function outerPitchRadiusM(set: TrochoidSet): number {
  return (set.innerToothCount + 1) * set.eccentricityM;
}

/** From a lobe's centre of arc to the pitch point, L = √(R_o² + r_2² − 2 R_o r_2 cos t), the lobe at t from full mesh [m]. */
function toPitchPointM(set: TrochoidSet, angleRad: number): number {
  const { arcCentreRadiusM } = set;
  const pitchM = outerPitchRadiusM(set);
  return Math.sqrt(arcCentreRadiusM ** 2 + pitchM ** 2 - 2 * arcCentreRadiusM * pitchM * Math.cos(angleRad));
}

function simpson(of: (angleRad: number) => number, middleRad: number, halfSpanRad: number): number {
  const stepRad = (2 * halfSpanRad) / STRIPS;
  let sum = 0;
  for (let index = 0; index <= STRIPS; index += 1) {
    const weight = index === 0 || index === STRIPS ? 1 : 2 + 2 * (index % 2);
    sum += weight * of(middleRad - halfSpanRad + index * stepRad);
  }
  return (sum * stepRad) / 3;
}

/** An integral over a lobe's passage about the widest chamber less that about full mesh. */
function widestLessMesh(set: TrochoidSet, of: (angleRad: number) => number): number {
  const halfSpanRad = Math.PI / (set.innerToothCount + 1);
  return simpson(of, Math.PI, halfSpanRad) - simpson(of, 0, halfSpanRad);
}

/**
 * Swept volume of a trochoid rotor set, a turn of the inner rotor: N chambers open from A_min to A_max, which along the
 * lines from contact to pitch point is V_g = (b/2) [∫_{π−d}^{π+d} s² dt − ∫_{−d}^{d} s² dt], d = π/(N + 1),
 * s(t) = √(R_o² + r_2² − 2 R_o r_2 cos t) − r_c, r_2 = (N + 1) e.
 *
 * @param set - the rotors [m]
 * @returns volume displaced in a turn of the inner rotor [m³/rev]
 *
 * Source: derived here, after the usual treatment (Fabiani, Manco, Nervegna and Rundo, SAE 99P-464, and Vacca and
 * Franzoni are the references; not read); the chambers' areas on the outlines are the second route.
 */
export function trochoidVolume(set: TrochoidSet): number {
  return (set.widthM / 2) * widestLessMesh(set, (angleRad) => (toPitchPointM(set, angleRad) - set.lobeRadiusM) ** 2);
}

/**
 * How the swept volume of a trochoid rotor set changes with each length: the integral of trochoidVolume differentiated
 * under its sign, ∂V/∂x = b [∫ s ∂s/∂x dt] between the same limits.
 *
 * @param set - the rotors [m]
 * @returns ∂V_g/∂R_o, ∂V_g/∂r_c at a given R_o, ∂V_g/∂e [m²/rev]
 *
 * Source: derived here.
 */
export function trochoidDerivatives(set: TrochoidSet): {
  readonly byArcCentreRadiusM2: number;
  readonly byLobeRadiusM2: number;
  readonly byEccentricityM2: number;
} {
  const { arcCentreRadiusM, lobeRadiusM, innerToothCount, widthM } = set;
  const pitchM = outerPitchRadiusM(set);
  const by = (change: (angleRad: number, lengthM: number) => number): number =>
    widthM *
    widestLessMesh(set, (angleRad) => {
      const lengthM = toPitchPointM(set, angleRad);
      return (lengthM - lobeRadiusM) * change(angleRad, lengthM);
    });
  return {
    byArcCentreRadiusM2: by((angleRad, lengthM) => (arcCentreRadiusM - pitchM * Math.cos(angleRad)) / lengthM),
    byLobeRadiusM2: by(() => -1),
    byEccentricityM2:
      (innerToothCount + 1) * by((angleRad, lengthM) => (pitchM - arcCentreRadiusM * Math.cos(angleRad)) / lengthM),
  };
}

/**
 * Ideal flow ripple of a trochoid rotor set: the flow is ½ b ω (s_w² − s_m²)/(N + 1), w the contact that closes off the widest
 * chamber and m the one in full mesh, each within half a lobe's pitch; looked for at 240 positions.
 *
 * @param set - the rotors [m]
 * @returns (q_max − q_min)/q_mean [1]
 *
 * Source: derived here from the swept volume.
 */
export function trochoidFlowRipple(set: TrochoidSet): number {
  const halfPitchRad = Math.PI / (set.innerToothCount + 1);
  // With an odd number of lobes one stands between two where the other side has one in the middle.
  const offsetRad = set.innerToothCount % 2 === 0 ? halfPitchRad : 0;
  const squareM2 = (angleRad: number): number => (toPitchPointM(set, angleRad) - set.lobeRadiusM) ** 2;
  const flowsM2 = Array.from({ length: RIPPLE_POSITIONS + 1 }, (_, index) => {
    const meshRad = (halfPitchRad * index) / RIPPLE_POSITIONS;
    return squareM2(Math.PI + meshRad - offsetRad) - squareM2(meshRad);
  });
  const meanM2 = trochoidVolume(set) / (set.widthM * halfPitchRad);
  return (Math.max(...flowsM2) - Math.min(...flowsM2)) / meanM2;
}

/**
 * Quick estimate of the trade, V ≈ π b (r_a² − r_f²) by the inner rotor's tip and root circles; 1.5 to 4 % high, for
 * plausibility only.
 *
 * @param set - the rotors [m]
 * @returns estimate [m³/rev]
 *
 * Source: common practice, no source.
 */
export function trochoidEstimate(set: TrochoidSet): number {
  return 4 * Math.PI * set.widthM * (set.arcCentreRadiusM - set.lobeRadiusM) * set.eccentricityM;
}

/**
 * Sharpest curvature of the path of a lobe's centre round the inner rotor; the inner rotor's teeth are undercut if the
 * lobe's radius is more than its inverse. With c = cos Nτ from −1 to 1:
 * κ = (R_o² + (N + 1) r_2² + (N + 2) R_o r_2 c)/(R_o² + r_2² + 2 R_o r_2 c)^{3/2}.
 *
 * @param set - the rotors [m]
 * @returns greatest κ [1/m]
 *
 * Source: curvature of an epitrochoid, derived here.
 */
export function sharpestCurvature(set: TrochoidSet): number {
  const { arcCentreRadiusM: centreM, innerToothCount } = set;
  const pitchM = outerPitchRadiusM(set);
  const productM2 = centreM * pitchM;
  const numerator = centreM ** 2 + (innerToothCount + 1) * pitchM ** 2;
  const square = centreM ** 2 + pitchM ** 2;
  const slope = innerToothCount + 2;
  const curvature = (c: number): number => (numerator + slope * productM2 * c) / (square + 2 * productM2 * c) ** 1.5;
  // dκ/dc = 0.
  const steepest = (slope * square - 3 * numerator) / (slope * productM2);
  return Math.max(curvature(1), curvature(-1), curvature(Math.max(-1, Math.min(1, steepest))));
}
