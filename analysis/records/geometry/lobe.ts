import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Two equal cycloidal rotors kept in step by gears outside the oil, measured apart. */
export const lobeGeometry = z.strictObject({
  kind: z.literal('lobe'),
  lobeCount: z.int().min(2).max(6),
  tipDiameterM: measuredPositive,
  centreDistanceM: measuredPositive,
  widthM: measuredPositive,
});
export type LobeGeometry = z.infer<typeof lobeGeometry>;
