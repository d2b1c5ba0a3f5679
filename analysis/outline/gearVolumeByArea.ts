import type { GearMesh } from '../displacement/gearMesh.ts';
import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { meshTeeth } from '../displacement/meshTeeth.ts';
import { toothHalfAngle } from '../displacement/tooth.ts';
import { type Outcome, yes } from '../outcome.ts';
import { gearOutlines } from './gearOutlines.ts';
import { outlineBetween } from './outlineBetween.ts';
import { type Point, polygonArea } from './polygon.ts';

/** Areas of a mesh, measured on the outlines. */
export type GearAreas = {
  /** One tooth space of the driver, inside its tip circle. */
  readonly driverSpaceM2: number;
  /** One tooth space of the driven gear; of a ring, outside its tip circle. */
  readonly drivenSpaceM2: number;
  /** Shut in between two contacts that stand half a base pitch before and behind the pitch point. */
  readonly trappedM2: number;
};

/** Outlines are drawn with so many steps along a flank, and with twice as many. */
const STEPS_PER_FLANK = 40;

function drawnAreas(mesh: GearMesh, stepsPerFlank: number): Outcome<GearAreas, GeometryRefusal> {
  const teeth = meshTeeth(mesh, 0);
  if (!teeth.ok) return teeth;
  const { pitchRadiusM, tipRadiusM, toothCount } = mesh.driver;
  const atMidMeshRad = Math.PI / toothCount - toothHalfAngle(teeth.value.driver, pitchRadiusM);
  const outlines = gearOutlines(mesh, 0, atMidMeshRad, stepsPerFlank + 1);
  if (!outlines.ok) return outlines;
  const { driver, driven } = outlines.value;
  const contact = (sM: number): Point => ({
    xM: pitchRadiusM + sM * Math.sin(mesh.runningAngleRad),
    yM: sM * Math.cos(mesh.runningAngleRad),
  });
  const [older, newer] = [contact(mesh.basePitchM / 2), contact(-mesh.basePitchM / 2)];
  const alongDriver = outlineBetween(driver, newer, older);
  const isRing = mesh.kind === 'internal';
  // Both gears' inner sides face the gap: a ring's outline runs up beside the pinion's, a gear's runs down.
  const alongDriven = isRing ? outlineBetween(driven, newer, older).toReversed() : outlineBetween(driven, older, newer);
  const drivenTipM2 = Math.PI * mesh.driven.tipRadiusM ** 2;
  const drivenSpacesM2 = isRing ? polygonArea(driven) - drivenTipM2 : drivenTipM2 - polygonArea(driven);
  return yes({
    driverSpaceM2: (Math.PI * tipRadiusM ** 2 - polygonArea(driver)) / toothCount,
    drivenSpaceM2: drivenSpacesM2 / mesh.driven.toothCount,
    trappedM2: Math.abs(polygonArea([...alongDriver, ...alongDriven])),
  });
}

/**
 * Tooth spaces and trapped area of two gears, integrated on their outlines. Without backlash: it widens the two
 * spaces and what is trapped between them alike. Chords cut corners by the square of their length: areas are taken
 * with two lengths of chord and extrapolated to none (Richardson).
 *
 * @param mesh - two gears [m, rad]
 * @returns areas, good to some 1e-8 [m²]; or why the teeth cannot be [-]
 *
 * Source: derived here.
 */
export function gearAreas(mesh: GearMesh): Outcome<GearAreas, GeometryRefusal> {
  const coarse = drawnAreas(mesh, STEPS_PER_FLANK);
  if (!coarse.ok) return coarse;
  const fine = drawnAreas(mesh, 2 * STEPS_PER_FLANK);
  if (!fine.ok) return fine;
  const extrapolated = (key: keyof GearAreas): number => (4 * fine.value[key] - coarse.value[key]) / 3;
  return yes({
    driverSpaceM2: extrapolated('driverSpaceM2'),
    drivenSpaceM2: extrapolated('drivenSpaceM2'),
    trappedM2: extrapolated('trappedM2'),
  });
}

/**
 * Swept volume of two gears from the areas between their outlines, V = z_1 b (A_s1 + A_s2 − A_trapped): each space of
 * either gear is carried over full, and each mesh takes back what it traps. Shares no formula with gearSweptVolume.
 *
 * @param mesh - two gears [m, rad]
 * @param faceWidthM - width of the faces [m]
 * @returns volume displaced in a turn of the driver [m³/rev]; or why the teeth cannot be [-]
 *
 * Source: derived here.
 */
export function gearVolumeByArea(mesh: GearMesh, faceWidthM: number): Outcome<number, GeometryRefusal> {
  const areas = gearAreas(mesh);
  if (!areas.ok) return areas;
  const { driverSpaceM2, drivenSpaceM2, trappedM2 } = areas.value;
  return yes(mesh.driver.toothCount * faceWidthM * (driverSpaceM2 + drivenSpaceM2 - trappedM2));
}
