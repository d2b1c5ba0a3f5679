import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** A single-start rotor in a two-start stator (lobes 1 : 2). */
export const progressingCavityGeometry = z.strictObject({
  kind: z.literal('progressingCavity'),
  /** Distance of the centre of a rotor section from the rotor's axis: half of (height over all − section diameter). */
  eccentricityM: measuredPositive,
  /** Diameter of the circular section of the rotor. */
  rotorDiameterM: measuredPositive,
  /** Advance of the stator's hollow in a full turn of it: two rotor pitches. */
  statorPitchM: measuredPositive,
});
export type ProgressingCavityGeometry = z.infer<typeof progressingCavityGeometry>;
