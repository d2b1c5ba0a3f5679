import { no, type Outcome, yes } from '../outcome.ts';
import { type GearMesh, involute, type MeshingGear } from './gearMesh.ts';
import { type GeometryRefusal, lengthInMm } from './geometryResult.ts';
import { cornerHalfAngle, involuteHalfAngle, type Tooth } from './tooth.ts';

/** Clearance between a tip and the bottom of the mate's space, in modules: standard dedendum 1.25, addendum 1. */
const ROOT_CLEARANCE_MODULES = 0.25;

/** Tips may overlap by this much, in modules, before gears are refused: edges are broken; common practice, no source. */
const BROKEN_EDGE_MODULES = 0.02;

/** Teeth of both gears; of a ring, its spaces. */
export type MeshTeeth = { readonly driver: Tooth; readonly driven: Tooth };

/** Profile shift coefficients; the running centre distance gives their sum (of a ring: difference), the tips the rest. */
function profileShifts(mesh: GearMesh): { readonly driver: number; readonly driven: number } {
  const { moduleM, pressureAngleRad, runningAngleRad, driver, driven } = mesh;
  const sign = mesh.kind === 'external' ? 1 : -1;
  const overReference = ({ tipRadiusM, toothCount }: MeshingGear): number => tipRadiusM / moduleM - toothCount / 2;
  const byDistance =
    ((driver.toothCount + sign * driven.toothCount) * (involute(runningAngleRad) - involute(pressureAngleRad))) /
    (2 * Math.tan(pressureAngleRad));
  const byTips = overReference(driver) - sign * overReference(driven);
  return { driver: (byDistance + byTips) / 2, driven: (sign * (byDistance - byTips)) / 2 };
}

/** Half-angle at the base circle without backlash. */
function baseHalfAngleRad(mesh: GearMesh, { toothCount }: MeshingGear, shift: number): number {
  const { pressureAngleRad } = mesh;
  return (Math.PI / 2 + 2 * shift * Math.tan(pressureAngleRad)) / toothCount + involute(pressureAngleRad);
}

/** An external tooth with the corner of its mate's tip. */
function relieved(bare: Tooth, mate: Tooth, mesh: GearMesh, upToRadiusM: number): Tooth {
  const isRing = mesh.kind === 'internal';
  const tipRadiusM = isRing ? mate.innerRadiusM : mate.outerRadiusM;
  const mateHalfRad = involuteHalfAngle(mate, tipRadiusM);
  return {
    ...bare,
    mateCorner: {
      centreDistanceM: mesh.centreDistanceM,
      tipRadiusM,
      angleAtRestRad: isRing ? mateHalfRad : Math.PI / mate.toothCount - mateHalfRad,
      turnsPerMateTurn: mate.toothCount / bare.toothCount,
      side: isRing ? 1 : -1,
      upToRadiusM,
    },
  };
}

function bareTeeth(mesh: GearMesh, backlashM: number): MeshTeeth {
  const { driver, driven, centreDistanceM } = mesh;
  const isRing = mesh.kind === 'internal';
  const clearanceM = ROOT_CLEARANCE_MODULES * mesh.moduleM;
  const shifts = profileShifts(mesh);
  const drivenBacklashRad = ((isRing ? 1 : -1) * backlashM) / 4 / driven.pitchRadiusM;
  const driverReachM = isRing ? driver.tipRadiusM + centreDistanceM : centreDistanceM - driver.tipRadiusM;
  return {
    driver: {
      toothCount: driver.toothCount,
      baseRadiusM: driver.baseRadiusM,
      baseHalfAngleRad: baseHalfAngleRad(mesh, driver, shifts.driver) - backlashM / 4 / driver.pitchRadiusM,
      innerRadiusM: Math.abs(centreDistanceM - driven.tipRadiusM) - clearanceM,
      outerRadiusM: driver.tipRadiusM,
      mateCorner: null,
    },
    driven: {
      toothCount: driven.toothCount,
      baseRadiusM: driven.baseRadiusM,
      baseHalfAngleRad: baseHalfAngleRad(mesh, driven, shifts.driven) + drivenBacklashRad,
      innerRadiusM: isRing ? driven.tipRadiusM : driverReachM - clearanceM,
      outerRadiusM: isRing ? driverReachM + clearanceM : driven.tipRadiusM,
      mateCorner: null,
    },
  };
}

/** Half a base pitch before the pitch point: the lowest place on a flank that has to seal [m]. */
function lowestContactM({ basePitchM, runningAngleRad }: GearMesh, pitchRadiusM: number): number {
  const sM = basePitchM / 2;
  return Math.hypot(pitchRadiusM - sM * Math.sin(runningAngleRad), sM * Math.cos(runningAngleRad));
}

function refuseTooth(name: string, tooth: Tooth, mesh: GearMesh): GeometryRefusal | null {
  const tipThicknessM = 2 * involuteHalfAngle(tooth, tooth.outerRadiusM) * tooth.outerRadiusM;
  if (!(tipThicknessM > 0)) {
    return {
      code: 'POINTED_TOOTH',
      quantity: `thickness of the teeth of the ${name} at their outer end [m]`,
      value: tipThicknessM,
      limit: 0,
      text: `the flanks of the ${name} cross within ${lengthInMm(2 * tooth.outerRadiusM)} diameter: tip diameter, module, pressure angle and tooth count do not belong together`,
    };
  }
  if (tooth.mateCorner === null) return null;
  const contactM = lowestContactM(mesh, tooth.mateCorner.upToRadiusM);
  const roomRad = cornerHalfAngle(tooth.mateCorner, contactM) - involuteHalfAngle(tooth, contactM);
  if (tooth.innerRadiusM > 0 && roomRad * contactM >= -BROKEN_EDGE_MODULES * mesh.moduleM) return null;
  return {
    code: 'TIP_INTERFERENCE',
    quantity: `room for the mating tip at the flank of the ${name} [m]`,
    value: tooth.innerRadiusM > 0 ? roomRad * contactM : tooth.innerRadiusM,
    limit: -BROKEN_EDGE_MODULES * mesh.moduleM,
    text: `the mating tip cuts into the flank of the ${name} where it has to seal: tip diameter, centre distance and module do not belong together`,
  };
}

/**
 * Room between the tip corners of pinion and ring where their tip circles cross, as a pair of teeth leaves the mesh:
 * the pinion's corner is there at shaft angle δ_1 − ψ_1; the ring's, of the tooth ahead, must be past δ_2.
 * Source: the usual condition against tip (trochoid) interference of internal gears, derived here from the triangle
 * of both centres and the crossing.
 */
function refuseTips({ driver, driven }: MeshTeeth, { centreDistanceM, moduleM }: GearMesh): GeometryRefusal | null {
  const [pinionM, ringM] = [driver.outerRadiusM, driven.innerRadiusM];
  const halfM2 = (ringM ** 2 - pinionM ** 2) / (2 * centreDistanceM);
  const pinionCos = (halfM2 - centreDistanceM / 2) / pinionM;
  // The tip circles cross, or gearMesh had found them out of reach; else the pinion fills the ring.
  const pinionRad = Math.acos(Math.max(-1, pinionCos));
  const ringRad = Math.acos(Math.max(-1, Math.min(1, (halfM2 + centreDistanceM / 2) / ringM)));
  const turnedRad = pinionRad - involuteHalfAngle(driver, pinionM);
  const roomM =
    pinionCos < -1
      ? ringM - (pinionM - centreDistanceM)
      : ringM * (involuteHalfAngle(driven, ringM) + (turnedRad * driver.toothCount) / driven.toothCount - ringRad);
  if (roomM >= -BROKEN_EDGE_MODULES * moduleM) return null;
  return {
    code: 'TIP_INTERFERENCE',
    quantity: 'room between the tips of pinion and ring [m]',
    value: roomM,
    limit: -BROKEN_EDGE_MODULES * moduleM,
    text: `the tips of pinion and ring run into each other by ${lengthInMm(-roomM)} as they leave the mesh: such gears need shorter tips; measure tip diameters and centre distance again`,
  };
}

/**
 * Teeth of two gears in mesh. Tips, cutter, centre distance and backlash are measured. Two things are not and are
 * taken as usual: how the profile shift is shared out is read from the tip circles, as if neither tip had been cut
 * back; the spaces end 0.25 modules below the mating tip.
 *
 * @param mesh - two gears [m, rad]
 * @param backlashM - along the running pitch circle; each gear gives half of it [m]
 * @returns teeth of the driver, teeth of the driven gear or spaces of the ring [m, rad]; or why they cannot be [-]
 *
 * Source: involute geometry and basic rack, ISO 21771:2007 and ISO 53:1998 (from memory).
 */
export function meshTeeth(mesh: GearMesh, backlashM: number): Outcome<MeshTeeth, GeometryRefusal> {
  const bare = bareTeeth(mesh, backlashM);
  const teeth: MeshTeeth = {
    driver: relieved(bare.driver, bare.driven, mesh, mesh.driver.pitchRadiusM),
    driven: mesh.kind === 'internal' ? bare.driven : relieved(bare.driven, bare.driver, mesh, mesh.driven.pitchRadiusM),
  };
  const drivenName = mesh.kind === 'internal' ? 'ring' : 'driven gear';
  const refusal =
    refuseTooth('driver', teeth.driver, mesh) ??
    refuseTooth(drivenName, teeth.driven, mesh) ??
    (mesh.kind === 'internal' ? refuseTips(teeth, mesh) : null);
  return refusal === null ? yes(teeth) : no(refusal);
}
