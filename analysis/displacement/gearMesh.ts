import { no, type Outcome, yes } from '../outcome.ts';
import type { GeometryRefusal } from './geometryResult.ts';
import { lengthInMm } from './geometryResult.ts';

/** One involute spur gear as it runs in its mesh. */
export type MeshingGear = {
  readonly toothCount: number;
  readonly tipRadiusM: number;
  readonly baseRadiusM: number;
  /** Running (working) pitch radius, from the running centre distance. */
  readonly pitchRadiusM: number;
};

/** What is measured of two gears; an internal mesh has a ring as its driven gear. */
export type GearPair = {
  readonly kind: 'external' | 'internal';
  readonly toothCount: { readonly driver: number; readonly driven: number };
  readonly moduleM: number;
  readonly pressureAngleRad: number;
  readonly driverTipRadiusM: number;
  readonly drivenTipRadiusM: number;
  readonly centreDistanceM: number;
};

/** Two gears that mesh, and the line their contacts run along. */
export type GearMesh = GearPair & {
  readonly driver: MeshingGear;
  readonly driven: MeshingGear;
  /** Running pressure angle. */
  readonly runningAngleRad: number;
  /** Base pitch of the cutter, p_b = π m cos α: how far one contact follows the other. */
  readonly basePitchM: number;
  /** Length of the path of contact on the side of the driven gear's tip, from the pitch point. */
  readonly approachM: number;
  /** The same on the side of the driver's tip. */
  readonly recessM: number;
};

/**
 * Involute function, inv α = tan α − α.
 *
 * @param angleRad - pressure angle, 0 to below π/2 [rad]
 * @returns roll angle less pressure angle [rad]
 *
 * Source: ISO 21771:2007 (from memory).
 *
 * @example involute(Math.PI / 9) // 0.014904383867336446: 20°, as in every table of the involute
 */
export function involute(angleRad: number): number {
  return Math.tan(angleRad) - angleRad;
}

/** √(r_a² − r_b²): from the tangent point on the base circle to the tip; 0 for a tip inside the base circle [m]. */
function tipTangentM({ tipRadiusM, baseRadiusM }: MeshingGear): number {
  return Math.sqrt(Math.max(0, tipRadiusM ** 2 - baseRadiusM ** 2));
}

function meshingGear(toothCount: number, tipRadiusM: number, pair: GearPair, teeth: number): MeshingGear {
  return {
    toothCount,
    tipRadiusM,
    baseRadiusM: (toothCount * pair.moduleM * Math.cos(pair.pressureAngleRad)) / 2,
    pitchRadiusM: (pair.centreDistanceM * toothCount) / teeth,
  };
}

/**
 * Contact ratio: length of the path of contact over the base pitch, ε = (approach + recess)/p_b.
 *
 * @param mesh - two gears [m, rad]
 * @returns contact ratio [1]
 *
 * Source: involute geometry, ISO 21771:2007 (from memory).
 */
export function contactRatio(mesh: Pick<GearMesh, 'approachM' | 'recessM' | 'basePitchM'>): number {
  return (mesh.approachM + mesh.recessM) / mesh.basePitchM;
}

/**
 * The mesh of two involute gears from what is measured of them. The path of contact ends where a tip leaves the line
 * of action, or at the point where that line touches the mate's base circle: no involute is left to touch beyond it.
 *
 * @param pair - teeth, cutter, tip radii and running centre distance [m, rad]
 * @returns the mesh [m, rad]; or why these gears cannot mesh [-]
 *
 * Source: involute geometry, ISO 21771:2007 (from memory).
 */
export function gearMesh(pair: GearPair): Outcome<GearMesh, GeometryRefusal> {
  const sign = pair.kind === 'external' ? 1 : -1;
  const { driver: driverTeeth, driven: drivenTeeth } = pair.toothCount;
  const teeth = Math.abs(driverTeeth + sign * drivenTeeth);
  const driver = meshingGear(driverTeeth, pair.driverTipRadiusM, pair, teeth);
  const driven = meshingGear(drivenTeeth, pair.drivenTipRadiusM, pair, teeth);
  const overPitchM = driver.tipRadiusM - driver.pitchRadiusM + sign * (driven.tipRadiusM - driven.pitchRadiusM);
  if (!(overPitchM > 0)) {
    return no({
      code: 'TIP_BELOW_PITCH',
      quantity: 'reach of the tips over the running centre distance [m]',
      value: overPitchM,
      limit: 0,
      text: `tip circles of ${lengthInMm(2 * driver.tipRadiusM)} and ${lengthInMm(2 * driven.tipRadiusM)} on a centre distance of ${lengthInMm(pair.centreDistanceM)}: these gears do not reach each other`,
    });
  }
  const leastCentreDistanceM = Math.abs(driver.baseRadiusM + sign * driven.baseRadiusM);
  if (!(pair.centreDistanceM > leastCentreDistanceM)) {
    return no({
      code: 'CONTACT_RATIO_BELOW_ONE',
      quantity: 'contact ratio [1]',
      value: 0,
      limit: 1,
      text: `the contact ratio is none: on a centre distance of ${lengthInMm(pair.centreDistanceM)} the gears run inside their base circles, which need more than ${lengthInMm(leastCentreDistanceM)}; measure centre distance and module again`,
    });
  }
  const runningAngleRad = Math.acos(leastCentreDistanceM / pair.centreDistanceM);
  const driverTangentM = driver.pitchRadiusM * Math.sin(runningAngleRad);
  const drivenTangentM = driven.pitchRadiusM * Math.sin(runningAngleRad);
  const recessM = tipTangentM(driver) - driverTangentM;
  const approachM = sign * (tipTangentM(driven) - drivenTangentM);
  const mesh: GearMesh = {
    ...pair,
    driver,
    driven,
    runningAngleRad,
    basePitchM: Math.PI * pair.moduleM * Math.cos(pair.pressureAngleRad),
    // A ring's involute has no tangent point on the side of the driver's tip.
    recessM: pair.kind === 'external' ? Math.min(recessM, drivenTangentM) : recessM,
    approachM: Math.min(approachM, driverTangentM),
  };
  const ratio = contactRatio(mesh);
  if (!(ratio >= 1)) {
    return no({
      code: 'CONTACT_RATIO_BELOW_ONE',
      quantity: 'contact ratio [1]',
      value: ratio,
      limit: 1,
      text: `the contact ratio is ${ratio.toFixed(3)}; gears that drive each other need 1 at the least: measure tip diameters, centre distance and module again`,
    });
  }
  return yes(mesh);
}

/** ±r_1/r_2: how fast the driven gear turns; minus where it is a ring, which takes away what its tip circle encloses. */
function signedRatio({ kind, driver, driven }: GearMesh): number {
  return ((kind === 'external' ? 1 : -1) * driver.pitchRadiusM) / driven.pitchRadiusM;
}

/** The mean of the flow per radian and half face width: (r_a1² − r_1²) ± (r_1/r_2)(r_a2² − r_2²) − (1 ± r_1/r_2) p_b²/12 [m²]. */
function meanBracketM2(mesh: GearMesh): number {
  const ratio = signedRatio(mesh);
  const { driver, driven } = mesh;
  return (
    driver.tipRadiusM ** 2 -
    driver.pitchRadiusM ** 2 +
    ratio * (driven.tipRadiusM ** 2 - driven.pitchRadiusM ** 2) -
    ((1 + ratio) * mesh.basePitchM ** 2) / 12
  );
}

/**
 * Swept volume of two involute gears, a turn of the driver:
 * V_g = π b [(r_a1² − r_1²) ± (r_1/r_2)(r_a2² − r_2²) − (1 ± r_1/r_2) p_b²/12], + for external gears, − for a pinion in
 * a ring; r are running pitch radii. The instantaneous flow ½ b ω [… − (1 ± r_1/r_2) s²], s from the pitch point along
 * the line of action, averaged over −p_b/2 ≤ s ≤ p_b/2: one contact seals, relief grooves switch at mid-mesh.
 *
 * @param mesh - two gears [m, rad]
 * @param faceWidthM - width of the faces [m]
 * @returns volume displaced in a turn of the driver [m³/rev]
 *
 * Source: equal gears: Manring and Kasaragadda (2003), ASME J. Dyn. Syst. Meas. Control 125, 396-404; Ivantysyn and
 * Ivantysynova, Hydrostatic Pumps and Motors (2001), gear pumps. Unequal and internal gears: derived here by the same
 * control volume.
 */
export function gearSweptVolume(mesh: GearMesh, faceWidthM: number): number {
  return Math.PI * faceWidthM * meanBracketM2(mesh);
}

/**
 * Ideal flow ripple of two involute gears, at tooth frequency:
 * δ = (q_max − q_min)/q_mean = (1 ± r_1/r_2)(p_b²/4)/[…], […] the bracket of gearSweptVolume.
 *
 * @param mesh - two gears [m, rad]
 * @returns ripple over mean [1]
 *
 * Source: Manring and Kasaragadda (2003) for equal gears; derived here for others.
 */
export function gearFlowRipple(mesh: GearMesh): number {
  return ((1 + signedRatio(mesh)) * mesh.basePitchM ** 2) / 4 / meanBracketM2(mesh);
}

/** How far mid-mesh lies from the pitch point if contacts seal from one end of their path on [m]. */
function endOffsetM({ approachM, recessM, basePitchM }: GearMesh): number {
  return Math.max(Math.abs(approachM - basePitchM / 2), Math.abs(recessM - basePitchM / 2));
}

/**
 * How far the swept volume can stray from the formula where relief grooves or backlash are missing, relative. Without
 * grooves a contact at the end of its path seals: s runs over a base pitch from there, its middle o off the pitch
 * point, and the volume falls by (1 ± r_1/r_2) o²/[…]. Without backlash both flanks seal, half a base pitch apart, and
 * it rises by (1 ± r_1/r_2)(p_b²/16)/[…].
 *
 * @param mesh - two gears [m, rad]
 * @returns the larger of the two, used as a half-width [1]
 *
 * Source: derived here from the instantaneous flow of gearSweptVolume; no published source.
 */
export function unrelievedSpread(mesh: GearMesh): number {
  const strayM2 = Math.max(endOffsetM(mesh) ** 2, mesh.basePitchM ** 2 / 16);
  return ((1 + signedRatio(mesh)) * strayM2) / meanBracketM2(mesh);
}

/**
 * How far the swept volume lies below the formula where the path of contact is too short on one side to seal half a base
 * pitch from the pitch point there: o is what it lacks, and the volume falls by (1 ± r_1/r_2) o²/[…].
 *
 * @param mesh - two gears [m, rad]
 * @returns relative to the volume; 0 where both sides are long enough [1]
 *
 * Source: derived here from the instantaneous flow of gearSweptVolume; no published source.
 */
export function offCentreLoss(mesh: GearMesh): number {
  const lackM = Math.max(0, mesh.basePitchM / 2 - Math.min(mesh.approachM, mesh.recessM));
  return ((1 + signedRatio(mesh)) * lackM ** 2) / meanBracketM2(mesh);
}
