import { no, type Outcome, yes } from '../outcome.ts';
import type { ExternalGearGeometry } from '../records/geometry/externalGear.ts';
import { type GearMesh, gearFlowRipple, gearMesh, gearSweptVolume } from './gearMesh.ts';
import { gearModelSpread } from './gearModelSpread.ts';
import { type GeometryRefusal, type SweptVolume, sweptVolumeFrom, type VolumeInput } from './geometryResult.ts';
import { meshTeeth } from './meshTeeth.ts';

/**
 * The mesh of an external gear pump.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns the mesh [m, rad]; or why these gears cannot mesh [-]
 */
export function externalGearMesh(geometry: ExternalGearGeometry): Outcome<GearMesh, GeometryRefusal> {
  const { toothCount, moduleM, pressureAngleRad, tipDiameterM, runningCentreDistanceM } = geometry;
  return gearMesh({
    kind: 'external',
    toothCount,
    moduleM,
    pressureAngleRad,
    driverTipRadiusM: tipDiameterM.value / 2,
    drivenTipRadiusM: (geometry.drivenTipDiameterM ?? tipDiameterM).value / 2,
    centreDistanceM: runningCentreDistanceM.value,
  });
}

/** ∂V_g/∂d_a1 = π b d_a1/2; ∂V_g/∂d_a2 = (z_1/z_2) π b d_a2/2; one measurement for both gears: their sum. */
function tipInputs(geometry: ExternalGearGeometry, ratio: number): readonly VolumeInput[] {
  const { tipDiameterM: tip, drivenTipDiameterM: drivenTip } = geometry;
  const perLengthM2 = (Math.PI * geometry.faceWidthM.value) / 2;
  if (drivenTip === undefined) {
    const derivative = perLengthM2 * (1 + ratio) * tip.value;
    return [{ id: 'tipDiameter', label: 'tip diameter of the gears', measured: tip, derivative }];
  }
  return [
    { id: 'tipDiameter', label: 'tip diameter of the driver', measured: tip, derivative: perLengthM2 * tip.value },
    {
      id: 'drivenTipDiameter',
      label: 'tip diameter of the driven gear',
      measured: drivenTip,
      derivative: perLengthM2 * ratio * drivenTip.value,
    },
  ];
}

function basisOf({ toothCount: { driver, driven } }: ExternalGearGeometry): string {
  if (driver === driven) return `two equal gears of ${driver} teeth, measured apart`;
  return `gears of ${driver} (driver) and ${driven} teeth, measured apart`;
}

/**
 * Swept volume of an external gear pump from its own measurements, with the uncertainty of each.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why these gears cannot mesh [-]
 *
 * Source: as gearSweptVolume; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function externalGearSweptVolume(geometry: ExternalGearGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const found = externalGearMesh(geometry);
  if (!found.ok) return found;
  const mesh = found.value;
  const teeth = meshTeeth(mesh, geometry.backlashM.value);
  if (!teeth.ok) return no(teeth.reason);
  const { faceWidthM, runningCentreDistanceM } = geometry;
  const { driver, driven, centreDistanceM } = mesh;
  const value = gearSweptVolume(mesh, faceWidthM.value);
  const ratio = driver.pitchRadiusM / driven.pitchRadiusM;
  const pitchM2 = driver.pitchRadiusM ** 2 + ratio * driven.pitchRadiusM ** 2;
  return yes(
    sweptVolumeFrom(
      value,
      [
        ...tipInputs(geometry, ratio),
        {
          id: 'centreDistance',
          label: 'running centre distance',
          measured: runningCentreDistanceM,
          derivative: (-2 * Math.PI * faceWidthM.value * pitchM2) / centreDistanceM,
        },
        {
          id: 'faceWidth',
          label: 'face width of the gears',
          measured: faceWidthM,
          derivative: value / faceWidthM.value,
        },
      ],
      gearModelSpread(mesh, geometry),
      { flowRipple: gearFlowRipple(mesh), basis: basisOf(geometry) },
    ),
  );
}
