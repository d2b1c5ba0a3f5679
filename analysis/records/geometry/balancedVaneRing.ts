import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Balanced vane pump: rotor and cam ring share their axis, two inlets, two outlets. */
export const balancedVaneRingGeometry = z.strictObject({
  kind: z.literal('balancedVaneRing'),
  vaneCount: z.int().min(6),
  /** Across the two wide arcs of the cam ring. */
  majorDiameterM: measuredPositive,
  /** Across the two narrow arcs of the cam ring. */
  minorDiameterM: measuredPositive,
  rotorDiameterM: measuredPositive,
  ringWidthM: measuredPositive,
  vaneThicknessM: measuredPositive,
  /** Lean of the slots from the radius, at the rotor's rim. */
  vaneLeanRad: z.number().min(0).max(0.5),
  /** Whether the spaces under the vanes draw and deliver with their chambers: then the vanes take nothing away. */
  underVanesDeliver: z.boolean(),
});
export type BalancedVaneRingGeometry = z.infer<typeof balancedVaneRingGeometry>;
