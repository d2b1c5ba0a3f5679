import { no, type Outcome, yes } from '../outcome.ts';
import type { InternalGearGeometry } from '../records/geometry/internalGear.ts';
import { type GearMesh, gearFlowRipple, gearMesh, gearSweptVolume } from './gearMesh.ts';
import { gearModelSpread } from './gearModelSpread.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';
import { meshTeeth } from './meshTeeth.ts';

/**
 * The mesh of an internal gear pump.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns the mesh, its driven gear a ring [m, rad]; or why these gears cannot mesh [-]
 */
export function internalGearMesh(geometry: InternalGearGeometry): Outcome<GearMesh, GeometryRefusal> {
  const { toothCount, moduleM, pressureAngleRad } = geometry;
  return gearMesh({
    kind: 'internal',
    toothCount: { driver: toothCount.pinion, driven: toothCount.ring },
    moduleM,
    pressureAngleRad,
    driverTipRadiusM: geometry.pinionTipDiameterM.value / 2,
    drivenTipRadiusM: geometry.ringTipDiameterM.value / 2,
    centreDistanceM: geometry.runningCentreDistanceM.value,
  });
}

/**
 * Swept volume of an internal gear pump with crescent, a turn of the pinion, from its own measurements.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why these gears cannot mesh [-]
 *
 * Source: as gearSweptVolume, with r_1 = a z_1/(z_2 − z_1), r_2 = a z_2/(z_2 − z_1); JCGM 100:2008, 5.1 for the
 * uncertainty.
 */
export function internalGearSweptVolume(geometry: InternalGearGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const found = internalGearMesh(geometry);
  if (!found.ok) return found;
  const mesh = found.value;
  const teeth = meshTeeth(mesh, geometry.backlashM.value);
  if (!teeth.ok) return no(teeth.reason);
  const { pinionTipDiameterM, ringTipDiameterM, runningCentreDistanceM, faceWidthM, toothCount } = geometry;
  const value = gearSweptVolume(mesh, faceWidthM.value);
  const perLengthM2 = (Math.PI * faceWidthM.value) / 2;
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'pinionTipDiameter',
          label: 'tip diameter of the pinion',
          measured: pinionTipDiameterM,
          derivative: perLengthM2 * pinionTipDiameterM.value,
        },
        {
          id: 'ringTipDiameter',
          label: 'tip diameter of the ring',
          measured: ringTipDiameterM,
          derivative: (-perLengthM2 * ringTipDiameterM.value * toothCount.pinion) / toothCount.ring,
        },
        {
          id: 'centreDistance',
          label: 'running centre distance',
          measured: runningCentreDistanceM,
          // ∂/∂a (r_1 r_2 − r_1²) = 2 r_1, since both pitch radii grow with a and r_2 − r_1 = a.
          derivative: 4 * perLengthM2 * mesh.driver.pitchRadiusM,
        },
        {
          id: 'faceWidth',
          label: 'face width of the gears',
          measured: faceWidthM,
          derivative: value / faceWidthM.value,
        },
      ],
      gearModelSpread(mesh, geometry),
      {
        flowRipple: gearFlowRipple(mesh),
        basis: `a pinion of ${toothCount.pinion} teeth in a ring of ${toothCount.ring}, measured apart`,
      },
    ),
  );
}
