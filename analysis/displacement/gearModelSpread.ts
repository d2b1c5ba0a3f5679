import type { Measured } from '../records/fields.ts';
import { type GearMesh, offCentreLoss, unrelievedSpread } from './gearMesh.ts';
import type { ModelSpread } from './geometryResult.ts';

/** Half-width of the formula's own spread with relief grooves and backlash, relative; common practice, no source [1]. */
const RELIEVED_HALF_WIDTH = 0.005;

/**
 * How far the formula of gearSweptVolume may be off for one pump. Half a per cent where grooves and backlash make the
 * mesh switch as the formula has it (common practice, no source); more where one of the two is missing, or where the
 * path of contact is too short on one side for it.
 *
 * @param mesh - two gears [m, rad]
 * @param pump - its relief grooves [-] and backlash [m]
 * @returns half-width relative to the volume [1]
 */
export function gearModelSpread(
  mesh: GearMesh,
  pump: { readonly hasReliefGrooves: boolean; readonly backlashM: Measured },
): ModelSpread {
  const isRelieved = pump.hasReliefGrooves && pump.backlashM.value > 0;
  return {
    label: 'relief grooves and backlash: spread of the formula',
    halfWidth: isRelieved ? RELIEVED_HALF_WIDTH + offCentreLoss(mesh) : unrelievedSpread(mesh),
  };
}
