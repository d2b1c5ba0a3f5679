import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Swept volume from papers or a plate, where the pump's own geometry is not computed. */
export const statedGeometry = z.strictObject({
  kind: z.literal('asStated'),
  sweptVolumeM3PerRev: measuredPositive,
  statedBy: z.string().min(1),
});
export type StatedGeometry = z.infer<typeof statedGeometry>;
