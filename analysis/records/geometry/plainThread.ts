import { z } from 'zod';
import { measuredPositive } from '../fields.ts';

/** A threaded shaft in a plain bore, or a plain shaft in a threaded bore: oil is dragged, not displaced. */
export const plainThreadGeometry = z.strictObject({
  kind: z.literal('plainThread'),
  startCount: z.int().min(1),
  boreDiameterM: measuredPositive,
  grooveDepthM: measuredPositive,
  /** Width of one groove, measured along the axis. */
  grooveWidthM: measuredPositive,
  /** Advance of one thread in a turn: starts times pitch. */
  leadM: measuredPositive,
});
export type PlainThreadGeometry = z.infer<typeof plainThreadGeometry>;
