import { no, type Outcome, yes } from '../outcome.ts';
import type { ProgressingCavityGeometry } from '../records/geometry/progressingCavity.ts';
import { type GeometryRefusal, lengthInMm, type SweptVolume, sweptVolumeFrom } from './geometryResult.ts';

/** Half-width of the formula's own spread: rubber is squeezed by the rotor; common practice, no source [1]. */
const RUBBER_HALF_WIDTH = 0.01;

/**
 * Swept volume of a progressing cavity pump from its own measurements, V_g = 4 e D P_s: the stator's section
 * π D²/4 + 4 e D less the rotor's π D²/4, which advances by a stator pitch in a turn.
 *
 * @param geometry - strip measurements of the pump record [m]
 * @returns V_g with sensitivities to `geometry.*` sources [m³/rev], ideal ripple 0 [1]; or why not [-]
 *
 * Source: Moineau's geometry in standard texts, from memory; JCGM 100:2008, 5.1 for the uncertainty.
 */
export function progressingCavitySweptVolume(
  geometry: ProgressingCavityGeometry,
): Outcome<SweptVolume, GeometryRefusal> {
  const { eccentricityM, rotorDiameterM, statorPitchM } = geometry;
  const rotorRadiusM = rotorDiameterM.value / 2;
  if (eccentricityM.value >= rotorRadiusM) {
    return no({
      code: 'CAVITY_WITHOUT_CORE',
      quantity: 'eccentricity [m]',
      value: eccentricityM.value,
      limit: rotorRadiusM,
      text: `an eccentricity of ${lengthInMm(eccentricityM.value)} is not smaller than the rotor section's radius of ${lengthInMm(rotorRadiusM)}: such a rotor has no core`,
    });
  }
  const value = 4 * eccentricityM.value * rotorDiameterM.value * statorPitchM.value;
  const inProportion = (id: string, label: string, measured: ProgressingCavityGeometry['eccentricityM']) => ({
    id,
    label,
    measured,
    derivative: value / measured.value,
  });
  return yes(
    sweptVolumeFrom(
      value,
      [
        inProportion('eccentricity', 'eccentricity of the rotor', eccentricityM),
        inProportion('rotorDiameter', 'diameter of the rotor section', rotorDiameterM),
        inProportion('statorPitch', 'pitch of the stator', statorPitchM),
      ],
      { label: 'squeeze of the rubber: spread of the formula', halfWidth: RUBBER_HALF_WIDTH },
      { flowRipple: 0, basis: 'a single-start rotor in a two-start stator, measured apart' },
    ),
  );
}
