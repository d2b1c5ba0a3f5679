import { z } from 'zod';
import { agreementSchema, outcomeSchema, statedSchema } from './statedSchema.ts';

/** What was measured against what geometry and strip sheet say. */
export const againstTheorySchema = z.strictObject({
  capacity: agreementSchema.extend({ predictedDrag: statedSchema.nullable(), inWords: z.string() }).meta({
    description: 'V_i against V_g and the predicted drag per turn (null: no strip sheet, V_g alone) [m3/rev].',
  }),
  slip: outcomeSchema(
    z.strictObject({
      holds: z
        .array(
          agreementSchema.extend({
            holdNumber: z.int(),
            speedRevPerS: z.number(),
            differentialPressurePa: z.number(),
          }),
        )
        .readonly(),
      withoutPressure: z.array(z.int()).readonly(),
    }),
  ).meta({ description: 'Measured against predicted slip, hold by hold [m3/s].' }),
  equivalentClearances: z
    .strictObject({
      holdNumber: z.int().meta({ description: 'Of the largest pressure difference, from which they are taken.' }),
      clearances: z
        .array(
          z.strictObject({
            clearanceId: z.string(),
            label: z.string(),
            weight: z.number(),
            against: z.array(agreementSchema).readonly(),
            inWords: z.string(),
          }),
        )
        .readonly(),
    })
    .nullable()
    .meta({ description: 'What each clearance alone would have to be to explain the measured slip [m].' }),
});
export type AgainstTheory = z.infer<typeof againstTheorySchema>;
