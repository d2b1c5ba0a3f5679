import { no, type Outcome, yes } from '../outcome.ts';
import type { TrochoidGeometry } from '../records/geometry/trochoid.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';
import {
  outerPitchRadiusM,
  sharpestCurvature,
  type TrochoidSet,
  trochoidDerivatives,
  trochoidFlowRipple,
  trochoidSet,
  trochoidVolume,
} from './trochoidSet.ts';

/** Half-width of the spread by ports that open early or late, relative; common practice, no source [1]. */
const PORT_TIMING_HALF_WIDTH = 0.005;

function refuseTrochoid(set: TrochoidSet): GeometryRefusal | null {
  const pitchM = outerPitchRadiusM(set);
  if (!(set.arcCentreRadiusM > pitchM)) {
    return {
      code: 'UNDERCUT_LOBES',
      quantity: 'distance of the lobes’ centres of arc from the axis [m]',
      value: set.arcCentreRadiusM,
      limit: pitchM,
      text: `the lobes' centres of arc lie ${lengthInMm(set.arcCentreRadiusM)} from the axis; with this eccentricity and tooth count they must lie beyond ${lengthInMm(pitchM)}: measure eccentricity and lobes again`,
    };
  }
  const limitM = 1 / sharpestCurvature(set);
  if (!(set.lobeRadiusM < limitM)) {
    return {
      code: 'UNDERCUT_LOBES',
      quantity: 'radius of a lobe [m]',
      value: set.lobeRadiusM,
      limit: limitM,
      text: `lobes of radius ${lengthInMm(set.lobeRadiusM)} would undercut the teeth of the inner rotor, which allow ${lengthInMm(limitM)}: measure eccentricity and lobes again`,
    };
  }
  return null;
}

/**
 * The rotors of a trochoid pump, where they can turn in each other.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns the lengths that the formulas use [m]; or why there can be no such rotors [-]
 */
export function checkedTrochoidSet(geometry: TrochoidGeometry): Outcome<TrochoidSet, GeometryRefusal> {
  const set = trochoidSet(geometry);
  const refusal = refuseTrochoid(set);
  return refusal === null ? yes(set) : no(refusal);
}

/**
 * Swept volume of a trochoid pump, a turn of the inner rotor, from its own measurements.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ripple [1]; or why there can be no such rotors [-]
 *
 * Source: as trochoidVolume; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function trochoidSweptVolume(geometry: TrochoidGeometry): Outcome<SweptVolume, GeometryRefusal> {
  const found = checkedTrochoidSet(geometry);
  if (!found.ok) return found;
  const set = found.value;
  const value = trochoidVolume(set);
  const { byArcCentreRadiusM2, byLobeRadiusM2, byEccentricityM2 } = trochoidDerivatives(set);
  return yes(
    sweptVolumeFrom(
      value,
      [
        {
          id: 'lobeTopCircleDiameter',
          label: 'circle through the lobes of the outer rotor',
          measured: geometry.lobeTopCircleDiameterM,
          derivative: byArcCentreRadiusM2 / 2,
        },
        {
          id: 'lobeRadius',
          label: 'radius of a lobe of the outer rotor',
          measured: geometry.lobeRadiusM,
          // With the tops of the lobes in place, their centres move outwards as much as the radius grows.
          derivative: byArcCentreRadiusM2 + byLobeRadiusM2,
        },
        {
          id: 'eccentricity',
          label: 'eccentricity of the rotors',
          measured: geometry.eccentricityM,
          derivative: byEccentricityM2,
        },
        { id: 'width', label: 'width of the rotors', measured: geometry.widthM, derivative: value / set.widthM },
      ],
      { label: 'port timing: spread of the formula', halfWidth: PORT_TIMING_HALF_WIDTH },
      {
        flowRipple: trochoidFlowRipple(set),
        basis: `an inner rotor of ${set.innerToothCount} teeth in ${set.innerToothCount + 1} lobes, measured apart`,
      },
    ),
  );
}
