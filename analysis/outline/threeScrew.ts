import { cornerAngles, NOMINAL_PROFILE } from '../displacement/threeScrew.ts';
import type { ThreeScrewGeometry } from '../records/geometry/threeScrew.ts';
import { arcPoints } from './arcPoints.ts';
import { type OutlinePart, POINTS_PER_TURN } from './outlinePart.ts';
import { moved, type Outline, type Point, rotated } from './polygon.ts';

/** All of it in units of the idler's diameter until it is scaled. */
type Screw = { readonly tip: number; readonly root: number; readonly matingTip: number; readonly sweptRad: number };

/**
 * A flank from its root outwards: the path of the mating screw's corner, z = e^(iφ) − tip e^(2iφ), turned and mirrored so
 * that it begins at `rootRad` and ends `spanRad` on.
 */
function flankPoints({ matingTip, sweptRad }: Screw, rootRad: number, spanRad: number, pointsPerTurn: number): Outline {
  const along = (turnRad: number): Point => ({
    xM: Math.cos(turnRad) - matingTip * Math.cos(2 * turnRad),
    yM: Math.sin(turnRad) - matingTip * Math.sin(2 * turnRad),
  });
  const end = along(sweptRad);
  const mirror = Math.sign(Math.atan2(end.yM, end.xM) * spanRad);
  // A flank turns through a small angle but carries the area: as many points as a quarter of a circle.
  const steps = Math.ceil(pointsPerTurn / 4);
  const points = Array.from({ length: steps + 1 }, (_, step) => along((sweptRad * step) / steps));
  return rotated(
    points.map(({ xM, yM }) => ({ xM, yM: mirror * yM })),
    rootRad,
  );
}

/** Cross-section of a screw of two starts, the middle of a thread at angle 0; thread and groove share what flanks leave. */
function screwOutline(screw: Screw, pointsPerTurn: number): Outline {
  const { flankRad } = cornerAngles();
  const halfArcRad = (Math.PI / 2 - flankRad) / 2;
  const rootRad = halfArcRad + flankRad;
  const half = [
    ...flankPoints(screw, -rootRad, flankRad, pointsPerTurn).slice(0, -1),
    ...arcPoints(screw.tip, -halfArcRad, halfArcRad, pointsPerTurn),
    ...flankPoints(screw, rootRad, -flankRad, pointsPerTurn).slice(0, -1).reverse(),
    ...arcPoints(screw.root, rootRad, Math.PI - rootRad, pointsPerTurn).slice(1, -1),
  ];
  return [...half, ...rotated(half, Math.PI)];
}

/** The bores of power screw and idlers as one line, power screw in the middle. */
function housingOutline(pointsPerTurn: number): Outline {
  const { powerTip, idlerTip } = NOMINAL_PROFILE;
  const { powerRad, idlerRad } = cornerAngles();
  const half = [
    ...arcPoints(powerTip, powerRad, Math.PI - powerRad, pointsPerTurn),
    ...moved(arcPoints(idlerTip, idlerRad, 2 * Math.PI - idlerRad, pointsPerTurn), -1, 0).slice(1, -1),
  ];
  return [...half, ...rotated(half, Math.PI)];
}

/**
 * Cross-section of a three-screw pump to scale, sharp-edged: the power screw at the origin, an idler on either side. The
 * thread is as wide as the groove, as nobody measured it; area and volume do not depend on it.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @param shaftAngleRad - of a thread of the power screw, counter-clockwise from the line of the axes [rad]
 * @param pointsPerTurn - of a full circle [1]
 * @returns housing, power screw, idlers [m]
 */
export function threeScrewOutline(
  geometry: ThreeScrewGeometry,
  shaftAngleRad: number,
  pointsPerTurn = POINTS_PER_TURN,
): readonly OutlinePart[] {
  const { powerTip, powerRoot, idlerTip, idlerRoot } = NOMINAL_PROFILE;
  const { powerRad, idlerRad } = cornerAngles();
  const unitM = geometry.idlerDiameterM.value;
  const toScale = (outline: Outline): Outline => outline.map(({ xM, yM }) => ({ xM: xM * unitM, yM: yM * unitM }));
  const power = toScale(
    screwOutline({ tip: powerTip, root: powerRoot, matingTip: idlerTip, sweptRad: idlerRad }, pointsPerTurn),
  );
  const idler = toScale(
    screwOutline({ tip: idlerTip, root: idlerRoot, matingTip: powerTip, sweptRad: powerRad }, pointsPerTurn),
  );
  // A groove of the idler faces the power screw where a thread of it faces the idler.
  const turnedIdler = rotated(idler, Math.PI / 2 - shaftAngleRad);
  return [
    { name: 'housing', encloses: 'bore', outline: toScale(housingOutline(pointsPerTurn)) },
    { name: 'power screw', encloses: 'metal', outline: rotated(power, shaftAngleRad) },
    { name: 'idler on the right', encloses: 'metal', outline: moved(turnedIdler, unitM, 0) },
    { name: 'idler on the left', encloses: 'metal', outline: moved(turnedIdler, -unitM, 0) },
  ];
}
