import type { StatedGeometry } from '../records/geometry/asStated.ts';
import { type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/**
 * Swept volume as somebody stated it.
 *
 * @param geometry - the statement [m³/rev]
 * @returns V_g with the uncertainty of the statement [m³/rev]
 */
export function statedSweptVolume(geometry: StatedGeometry): SweptVolume {
  const { sweptVolumeM3PerRev, statedBy } = geometry;
  const basis = `as stated by ${statedBy}`;
  return sweptVolumeFrom(
    sweptVolumeM3PerRev.value,
    [{ id: 'stated', label: `swept volume ${basis}`, measured: sweptVolumeM3PerRev, derivative: 1 }],
    null,
    { flowRipple: null, basis },
  );
}
