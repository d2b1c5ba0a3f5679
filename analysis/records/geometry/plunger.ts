import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Axial pistons in a barrel that turns against a swash plate. */
export const plungerGeometry = z.strictObject({
  kind: z.literal('plunger'),
  pistonCount: z.int().min(1),
  pistonDiameterM: measuredPositive,
  pitchCircleDiameterM: measuredPositive,
  swashAngleRad: measuredPositive,
});
export type PlungerGeometry = z.infer<typeof plungerGeometry>;
