import { no, type Outcome, yes } from '../outcome.ts';
import type { PlungerGeometry } from '../records/geometry/plunger.ts';
import { differenceFrom, unitOf } from '../units.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** Steeper than any swash plate: common practice, no source [rad]. */
const STEEPEST_SWASH_RAD = Math.PI / 4;

/**
 * Ideal flow ripple of z pistons that move as sines: (π/(2z)) tan(π/(4z)) for odd z, (π/z) tan(π/(2z)) for even z;
 * a single piston delivers from 0 to π times the mean.
 *
 * @param pistonCount - z, 1 or more [1]
 * @returns (max − min)/mean [1]
 *
 * Source: Ivantysyn and Ivantysynova, Hydrostatic Pumps and Motors (2001), from memory.
 */
export function pistonFlowRipple(pistonCount: number): number {
  if (pistonCount === 1) return Math.PI;
  const periodsPerRev = pistonCount % 2 === 0 ? pistonCount : 2 * pistonCount;
  return (Math.PI / periodsPerRev) * Math.tan(Math.PI / (2 * periodsPerRev));
}

/** Why pistons cannot stand like this; null where they can. */
function refusePistons(geometry: PlungerGeometry): GeometryRefusal | null {
  const { pistonCount, pistonDiameterM, pitchCircleDiameterM, swashAngleRad } = geometry;
  // Between neighbours; a single piston has none.
  const apartM = pitchCircleDiameterM.value * Math.sin(Math.PI / pistonCount);
  if (pistonCount > 1 && pistonDiameterM.value >= apartM) {
    return {
      code: 'PISTONS_OVERLAP',
      quantity: 'piston diameter [m]',
      value: pistonDiameterM.value,
      limit: apartM,
      text: `pistons of ${lengthInMm(pistonDiameterM.value)} overlap: their axes are ${lengthInMm(apartM)} apart`,
    };
  }
  if (swashAngleRad.value > STEEPEST_SWASH_RAD) {
    const inDegrees = (angleRad: number): string => differenceFrom(angleRad, unitOf('deg')).toFixed(1);
    return {
      code: 'SWASH_TOO_STEEP',
      quantity: 'angle of the swash plate [rad]',
      value: swashAngleRad.value,
      limit: STEEPEST_SWASH_RAD,
      text: `a swash plate at ${inDegrees(swashAngleRad.value)}° is steeper than any, ${inDegrees(STEEPEST_SWASH_RAD)}°: measure from square to the shaft`,
    };
  }
  return null;
}

/**
 * Swept volume of an axial piston pump from its own measurements, V_g = z (π/4) d² D_p tan β.
 *
 * @param geometry - strip measurements of the pump record [m, rad]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why not [-]
 *
 * Source: standard texts on hydrostatic pumps, from memory; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function plungerSweptVolume(geometry: PlungerGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const refusal = refusePistons(geometry);
  if (refusal !== null) return no(refusal);
  const { pistonCount, pistonDiameterM, pitchCircleDiameterM, swashAngleRad } = geometry;
  const pistonsM2 = pistonCount * (Math.PI / 4) * pistonDiameterM.value ** 2;
  const value = pistonsM2 * pitchCircleDiameterM.value * Math.tan(swashAngleRad.value);
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'pistonDiameter',
          label: 'diameter of the pistons',
          measured: pistonDiameterM,
          derivative: (2 * value) / pistonDiameterM.value,
        },
        {
          id: 'pitchCircle',
          label: 'pitch circle of the pistons',
          measured: pitchCircleDiameterM,
          derivative: value / pitchCircleDiameterM.value,
        },
        {
          id: 'swashAngle',
          label: 'angle of the swash plate',
          measured: swashAngleRad,
          derivative: (pistonsM2 * pitchCircleDiameterM.value) / Math.cos(swashAngleRad.value) ** 2,
        },
      ],
      null,
      {
        flowRipple: pistonFlowRipple(pistonCount),
        basis: `${pistonCount} axial piston${pistonCount === 1 ? '' : 's'} on a swash plate, measured apart`,
      },
    ),
  );
}
