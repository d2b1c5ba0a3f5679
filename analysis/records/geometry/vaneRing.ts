import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Single vane pump: a slotted rotor out of centre in a circular ring, radial vanes. */
export const vaneRingGeometry = z.strictObject({
  kind: z.literal('vaneRing'),
  vaneCount: z.int().min(2),
  ringDiameterM: measuredPositive,
  rotorDiameterM: measuredPositive,
  /** Distance of the rotor's axis from the ring's: half the difference of widest and narrowest gap. */
  eccentricityM: measuredPositive,
  ringWidthM: measuredPositive,
  vaneThicknessM: measuredPositive,
  /** Whether the spaces under the vanes draw and deliver with their chambers: then the vanes take nothing away. */
  underVanesDeliver: z.boolean(),
});
export type VaneRingGeometry = z.infer<typeof vaneRingGeometry>;
