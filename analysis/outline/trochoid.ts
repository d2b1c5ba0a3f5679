import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { checkedTrochoidSet } from '../displacement/trochoid.ts';
import type { TrochoidSet } from '../displacement/trochoidSet.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { TrochoidGeometry } from '../records/geometry/trochoid.ts';
import { arcPoints } from './arcPoints.ts';
import { outlineBetween } from './outlineBetween.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved, type Outline, type Point, polygonArea, rotated } from './polygon.ts';

/**
 * Where a lobe touches the inner rotor: on the line from its centre of arc to the pitch point. Inner axis at the
 * origin, outer axis e to the left, pitch point N e to the right.
 */
function contactPoint(set: TrochoidSet, lobeRad: number): Point {
  const { arcCentreRadiusM, eccentricityM, lobeRadiusM, innerToothCount } = set;
  const centreXM = arcCentreRadiusM * Math.cos(lobeRad) - eccentricityM;
  const centreYM = arcCentreRadiusM * Math.sin(lobeRad);
  const toPitchXM = innerToothCount * eccentricityM - centreXM;
  const share = lobeRadiusM / Math.hypot(toPitchXM, centreYM);
  return { xM: centreXM + share * toPitchXM, yM: centreYM - share * centreYM };
}

/** The same point seen from the inner rotor, which has turned (N + 1)/N as far as the lobe. */
function profilePoint(set: TrochoidSet, lobeRad: number): Point {
  const { xM, yM } = contactPoint(set, lobeRad);
  const turnedRad = (-lobeRad * (set.innerToothCount + 1)) / set.innerToothCount;
  const [cos, sin] = [Math.cos(turnedRad), Math.sin(turnedRad)];
  return { xM: xM * cos - yM * sin, yM: xM * sin + yM * cos };
}

/** Steps in which the length of a tooth's profile is measured out. */
const LENGTH_STEPS = 500;

/**
 * Lobe angles of points evenly spaced along one tooth: the contact runs much faster in full mesh than elsewhere. They
 * run backwards, so that the profile runs counter-clockwise.
 */
function evenLobeAngles(set: TrochoidSet, count: number): readonly number[] {
  const angles = Array.from({ length: LENGTH_STEPS + 1 }, (_, step) => (-2 * Math.PI * step) / LENGTH_STEPS);
  const points = angles.map((lobeRad) => profilePoint(set, lobeRad));
  const lengthsM: number[] = [];
  let [lengthM, last] = [0, points[0]];
  for (const point of points) {
    lengthM += last === undefined ? 0 : Math.hypot(point.xM - last.xM, point.yM - last.yM);
    lengthsM.push(lengthM);
    last = point;
  }
  let step = 0;
  return Array.from({ length: count }, (_, index) => {
    const wantedM = (lengthM * index) / count;
    while ((lengthsM[step + 1] ?? lengthM) < wantedM) step += 1;
    const [fromM, toM] = [lengthsM[step] ?? 0, lengthsM[step + 1] ?? lengthM];
    return (-2 * Math.PI * (step + (wantedM - fromM) / (toM - fromM))) / LENGTH_STEPS;
  });
}

/** Inner rotor about its axis, a hollow pointing along x: the path of one lobe's contact, seen from the rotor. */
function innerRotor(set: TrochoidSet, pointsPerTurn: number): Outline {
  const { innerToothCount: teeth } = set;
  const tooth = evenLobeAngles(set, Math.ceil(pointsPerTurn / teeth)).map((lobeRad) => profilePoint(set, lobeRad));
  return Array.from({ length: teeth }, (_, index) => rotated(tooth, (2 * Math.PI * index) / teeth)).flat();
}

/** Inside of the outer rotor about its axis, a lobe on the x axis; between lobes the circle that the inner tips reach. */
function outerRotor(set: TrochoidSet, pointsPerTurn: number): Outline {
  const { arcCentreRadiusM, lobeRadiusM, eccentricityM, innerToothCount } = set;
  const halfPitchRad = Math.PI / (innerToothCount + 1);
  const rootM = arcCentreRadiusM - lobeRadiusM + 2 * eccentricityM;
  const cosAtRoot = (arcCentreRadiusM ** 2 + lobeRadiusM ** 2 - rootM ** 2) / (2 * arcCentreRadiusM * lobeRadiusM);
  const sinAtNeighbour = (arcCentreRadiusM * Math.sin(halfPitchRad)) / lobeRadiusM;
  const neighbourRad = sinAtNeighbour < 1 ? Math.asin(sinAtNeighbour) - halfPitchRad : Math.PI;
  const endRad = Math.min(Math.acos(Math.max(-1, cosAtRoot)), neighbourRad);
  const lobe = moved(arcPoints(lobeRadiusM, Math.PI + endRad, Math.PI - endRad, pointsPerTurn), arcCentreRadiusM, 0);
  const lastRad = Math.atan2(lobeRadiusM * Math.sin(endRad), arcCentreRadiusM - lobeRadiusM * Math.cos(endRad));
  const root = arcPoints(rootM, lastRad, 2 * halfPitchRad - lastRad, pointsPerTurn).slice(1, -1);
  return Array.from({ length: innerToothCount + 1 }, (_, index) =>
    rotated([...lobe, ...root], 2 * halfPitchRad * index),
  ).flat();
}

/** Both rotors with the outer one turned by an angle. */
function turnedRotors(set: TrochoidSet, outerRad: number, pointsPerTurn: number) {
  const innerRad = (outerRad * (set.innerToothCount + 1)) / set.innerToothCount;
  return {
    inner: rotated(innerRotor(set, pointsPerTurn), innerRad),
    outer: moved(rotated(outerRotor(set, pointsPerTurn), outerRad), -set.eccentricityM, 0),
  };
}

/**
 * Trochoid pump to scale: the inner rotor's axis at the origin, the outer one's to the left, full mesh on the right. The
 * hollows between the lobes of the outer rotor are drawn as far as the inner tips reach; nobody measured them.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - of a hollow of the inner rotor, counter-clockwise from full mesh [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns inside of the outer rotor, inner rotor [m]; or why there can be no such rotors [-]
 */
export function trochoidOutline(
  geometry: TrochoidGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): Outcome<readonly OutlinePart[], GeometryRefusal> {
  const set = checkedTrochoidSet(geometry);
  if (!set.ok) return set;
  const outerRad = (shaftAngleRad * set.value.innerToothCount) / (set.value.innerToothCount + 1);
  const { inner, outer } = turnedRotors(set.value, outerRad, pointsPerTurn);
  return yes([
    { name: 'outer rotor', encloses: 'bore', outline: outer },
    { name: 'inner rotor', encloses: 'metal', outline: inner },
  ]);
}

/** Area of the chamber between the two lobes on either side of a direction [m²]. */
function chamberArea(set: TrochoidSet, middleRad: number, pointsPerTurn: number): number {
  const halfPitchRad = Math.PI / (set.innerToothCount + 1);
  const { inner, outer } = turnedRotors(set, middleRad - halfPitchRad, pointsPerTurn);
  const from = contactPoint(set, middleRad - halfPitchRad);
  const to = contactPoint(set, middleRad + halfPitchRad);
  return polygonArea([...outlineBetween(outer, from, to), ...outlineBetween(inner, from, to).toReversed()]);
}

/** Points of a circle for areas; they are taken with twice as many too and extrapolated to none missing (Richardson). */
const AREA_POINTS_PER_TURN = 600;

/**
 * Swept volume of a trochoid rotor set from its chambers, measured on the outlines: V = N b (A_max − A_min).
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns volume displaced in a turn of the inner rotor [m³/rev]; or why there can be no such rotors [-]
 *
 * Source: derived here.
 */
export function trochoidVolumeByArea(geometry: TrochoidGeometry): Outcome<number, GeometryRefusal> {
  const found = checkedTrochoidSet(geometry);
  if (!found.ok) return found;
  const set = found.value;
  const opened = (pointsPerTurn: number): number =>
    chamberArea(set, Math.PI, pointsPerTurn) - chamberArea(set, 0, pointsPerTurn);
  const openedM2 = (4 * opened(2 * AREA_POINTS_PER_TURN) - opened(AREA_POINTS_PER_TURN)) / 3;
  return yes(set.innerToothCount * set.widthM * openedM2);
}
