import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** Two equal screws of opposite hand with rectangular thread, land as wide as groove. */
export const twinScrewGeometry = z.strictObject({
  kind: z.literal('twinScrew'),
  /** Threads of one screw. */
  startCount: z.int().min(1).max(4),
  outerDiameterM: measuredPositive,
  rootDiameterM: measuredPositive,
  runningCentreDistanceM: measuredPositive,
  /** Advance of one thread in a turn: starts times pitch. */
  leadM: measuredPositive,
});
export type TwinScrewGeometry = z.infer<typeof twinScrewGeometry>;
