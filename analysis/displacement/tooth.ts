import { involute } from './gearMesh.ts';

/** Tooth of a spur gear, or space of a ring, which has the same shape. */
export type Tooth = {
  readonly toothCount: number;
  readonly baseRadiusM: number;
  /** Half its angle at the base circle; below that the flanks are radial. */
  readonly baseHalfAngleRad: number;
  /** Root circle of a gear, tip circle of a ring. */
  readonly innerRadiusM: number;
  /** Tip circle of a gear, root circle of a ring. */
  readonly outerRadiusM: number;
  /** The corner of the mate's tip that passes the root and has to find room there; null for a ring. */
  readonly mateCorner: MateCorner | null;
};

export type MateCorner = {
  readonly centreDistanceM: number;
  readonly tipRadiusM: number;
  /** Direction of the corner from the mate's centre, off the line of centres, with this tooth on that line. */
  readonly angleAtRestRad: number;
  /** How far this gear turns while the mate turns by 1. */
  readonly turnsPerMateTurn: number;
  /** −1: the mate's centre lies beyond the mesh (external); +1: behind the gear's own (ring). */
  readonly side: -1 | 1;
  /** Flanks are relieved up to this radius, the running pitch circle. */
  readonly upToRadiusM: number;
};

/**
 * Half the angle of the involute alone: ψ(r) = ψ_b − inv(arccos r_b/r), ψ_b inside the base circle.
 *
 * @param tooth - its shape [m, rad]
 * @param radiusM - from the gear's centre [m]
 * @returns half-angle; negative beyond the point where the flanks cross [rad]
 *
 * Source: involute geometry, ISO 21771:2007 (from memory).
 */
export function involuteHalfAngle(tooth: Tooth, radiusM: number): number {
  if (radiusM <= tooth.baseRadiusM) return tooth.baseHalfAngleRad;
  return tooth.baseHalfAngleRad - involute(Math.acos(tooth.baseRadiusM / radiusM));
}

/**
 * Half the angle at which the corner of the mate's tip passes a radius: on its way in and out it stands at ±φ from the
 * line of centres, cos φ = (a² + r_a² − r²)/(2 a r_a), with the gear turned to match.
 *
 * @param corner - the mate's tip [m, rad]
 * @param radiusM - from the gear's centre [m]
 * @returns the smaller half-angle of the two; π, no limit, where the corner does not come [rad]
 *
 * Source: derived here; a test rolls the outlines on each other.
 */
export function cornerHalfAngle(corner: MateCorner, radiusM: number): number {
  const { centreDistanceM, tipRadiusM, angleAtRestRad, turnsPerMateTurn, side } = corner;
  const cos = (centreDistanceM ** 2 + tipRadiusM ** 2 - radiusM ** 2) / (2 * centreDistanceM * tipRadiusM);
  if (radiusM > corner.upToRadiusM || Math.abs(cos) > 1) return Math.PI;
  const limits = [Math.acos(cos), -Math.acos(cos)].map((angleRad) => {
    const xM = side * (tipRadiusM * Math.cos(angleRad) - centreDistanceM);
    const turnedRad = (angleRad - angleAtRestRad) * turnsPerMateTurn;
    return Math.atan2(tipRadiusM * Math.sin(angleRad), xM) - turnedRad;
  });
  return Math.min(...limits);
}

/**
 * Half the angle of a tooth: its involute, relieved where the mate's tip has to pass, as cutters leave it.
 *
 * @param tooth - its shape [m, rad]
 * @param radiusM - from the gear's centre [m]
 * @returns half-angle [rad]
 *
 * Source: as involuteHalfAngle and cornerHalfAngle.
 */
export function toothHalfAngle(tooth: Tooth, radiusM: number): number {
  const involuteRad = involuteHalfAngle(tooth, radiusM);
  return tooth.mateCorner === null ? involuteRad : Math.min(involuteRad, cornerHalfAngle(tooth.mateCorner, radiusM));
}
