import type { GearMesh } from '../displacement/gearMesh.ts';
import type { GeometryRefusal } from '../displacement/geometryResult.ts';
import { meshTeeth } from '../displacement/meshTeeth.ts';
import { type Outcome, yes } from '../outcome.ts';
import { moved, type Outline } from './polygon.ts';
import { toothedOutline } from './toothedOutline.ts';

/** Both gears in place; of a ring, its inside. */
export type GearOutlines = { readonly driver: Outline; readonly driven: Outline };

/**
 * Two gears in mesh to scale: the driver's axis at the origin, the driven gear's at the centre distance to the right,
 * a ring's to the left, so that the mesh is on the right. A tooth of the driver points along x at shaft angle 0; the
 * backlash is drawn half on each flank.
 *
 * @param mesh - two gears [m, rad]
 * @param backlashM - along the running pitch circle [m]
 * @param shaftAngleRad - the driver turned counter-clockwise by this [rad]
 * @param pointsPerFlank - how finely, 2 or more [1]
 * @returns both outlines [m]; or why the teeth cannot be [-]
 */
export function gearOutlines(
  mesh: GearMesh,
  backlashM: number,
  shaftAngleRad: number,
  pointsPerFlank: number,
): Outcome<GearOutlines, GeometryRefusal> {
  const teeth = meshTeeth(mesh, backlashM);
  if (!teeth.ok) return teeth;
  const { driver, driven } = teeth.value;
  const turnedRad = (shaftAngleRad * driver.toothCount) / driven.toothCount;
  const isRing = mesh.kind === 'internal';
  // A space of the driven gear faces the driver's tooth at rest.
  const drivenRad = isRing ? turnedRad : Math.PI + Math.PI / driven.toothCount - turnedRad;
  return yes({
    driver: toothedOutline(driver, shaftAngleRad, pointsPerFlank),
    driven: moved(toothedOutline(driven, drivenRad, pointsPerFlank), (isRing ? -1 : 1) * mesh.centreDistanceM, 0),
  });
}
