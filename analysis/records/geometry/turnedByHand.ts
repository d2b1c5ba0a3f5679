import { z } from 'zod';

/** What the pump delivered when it was turned by hand, flooded and against no pressure. */
export const turnedByHandGeometry = z.strictObject({
  kind: z.literal('turnedByHand'),
  /** Each time anew: the volume caught and the turns counted, with the part of a turn. */
  repeats: z.array(z.strictObject({ volumeM3: z.number().positive(), turnsRev: z.number().positive() })).min(1),
  /** Of the vessel, the same each time [m³]. */
  volumeStandardUncertaintyM3: z.number().nonnegative(),
  /** Of where the first and the last turn begin and end, the same each time [rev]. */
  partialTurnStandardUncertaintyRev: z.number().nonnegative(),
});
export type TurnedByHandGeometry = z.infer<typeof turnedByHandGeometry>;
