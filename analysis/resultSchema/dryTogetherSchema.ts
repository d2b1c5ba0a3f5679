import { z } from 'zod';
import { wetnessClass } from '../records/fields.ts';
import { intervalSchema, machineOutcome, timeIntervalSchema } from './dryLiftSchema.ts';
import { refusalSchema } from './statedSchema.ts';

/** What the dry starts of several runs of one pump tell together. */
export const dryTogetherSchema = z.strictObject({
  runIds: z.array(z.string()).min(1),
  wetness: wetnessClass,
  capacityBasis: z.enum(['derived', 'geometry']),
  capacityRunId: z.string().nullable().meta({ description: 'The delivery run whose V_i was taken; null: V_g was.' }),
  noiseFactor: z.number(),
  limits: z.array(
    z.strictObject({ speedRevPerS: z.number(), limitM: intervalSchema, blankOffPressurePa: intervalSchema }),
  ),
  alone: z
    .array(
      z.strictObject({
        runId: z.string(),
        kind: z.enum(['lift', 'blanked']),
        limits: z.array(z.strictObject({ speedRevPerS: z.number(), limitM: intervalSchema })),
      }),
    )
    .meta({
      description:
        'What each of the runs says by itself, with V_g for its capacity; a run without a fit of its own is left out.',
    }),
  machine: machineOutcome,
  limitAgainstSpeed: z.array(z.strictObject({ speedRevPerS: z.number(), limitM: intervalSchema })),
  timeAgainstLift: z
    .array(z.strictObject({ liftM: z.number(), timeS: timeIntervalSchema }))
    .meta({ description: 'Motor start to delivery; empty: all were blanked.' }),
  timeSpeedRevPerS: z.number().nullable(),
  warnings: z.array(refusalSchema),
});
export type DryTogether = z.infer<typeof dryTogetherSchema>;
