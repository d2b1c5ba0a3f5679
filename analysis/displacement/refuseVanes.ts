import { type GeometryRefusal, lengthInMm } from './geometryResult.ts';

/** What a slotted rotor must satisfy in any ring [m]. */
type SlottedRotor = {
  /** Least distance of the ring from the rotor's axis. */
  readonly narrowestRadiusM: number;
  readonly rotorDiameterM: number;
  readonly vaneThicknessM: number;
  readonly vaneCount: number;
};

/**
 * Whether a slotted rotor fits into its ring and the slots into the rotor.
 *
 * @param rotor - sizes of rotor, ring and vanes [m]
 * @returns why it cannot be, null where it can [-]
 */
export function refuseVanes(rotor: SlottedRotor): GeometryRefusal | null {
  const { narrowestRadiusM, rotorDiameterM, vaneThicknessM, vaneCount } = rotor;
  if (rotorDiameterM / 2 > narrowestRadiusM) {
    return {
      code: 'ROTOR_OUTSIDE_RING',
      quantity: 'radius of the rotor [m]',
      value: rotorDiameterM / 2,
      limit: narrowestRadiusM,
      text: `the rotor's radius of ${lengthInMm(rotorDiameterM / 2)} is larger than the ${lengthInMm(narrowestRadiusM)} from its axis to the nearest point of the ring: measure ring, rotor and eccentricity again`,
    };
  }
  const besideEachOtherM = vaneCount * vaneThicknessM;
  const aroundM = Math.PI * rotorDiameterM;
  if (besideEachOtherM >= aroundM) {
    return {
      code: 'VANES_TOO_THICK',
      quantity: 'vanes side by side [m]',
      value: besideEachOtherM,
      limit: aroundM,
      text: `${vaneCount} vanes side by side are ${lengthInMm(besideEachOtherM)} wide, more than the ${lengthInMm(aroundM)} around the rotor`,
    };
  }
  return null;
}
