import { z } from 'zod';
import { outcomeSchema, statedSchema } from './statedSchema.ts';

const reliefPressure = z.discriminatedUnion('found', [
  z.strictObject({ found: z.literal(true), differentialPressurePa: statedSchema }),
  z.strictObject({ found: z.literal(false), code: z.string(), text: z.string() }),
]);

/** Pressure up and down through the opening of the relief valve. */
export const reliefSchema = outcomeSchema(
  z.strictObject({
    speedRevPerS: z.number(),
    highestPressurePa: z.number(),
    cracking: reliefPressure,
    fullFlow: reliefPressure,
    reseat: reliefPressure,
    hysteresisPa: statedSchema.nullable(),
    text: z.string(),
  }),
);
export type ReliefResult = z.infer<typeof reliefSchema>;

/** Flow against inlet vacuum at one speed. */
export const suctionSchema = outcomeSchema(
  z.strictObject({
    referenceHoldNumber: z.int(),
    points: z
      .array(
        z.strictObject({
          holdNumber: z.int(),
          suctionPressurePa: statedSchema,
          flowM3PerS: statedSchema,
          lost: statedSchema.meta({ description: 'Share of the reference flow that is missing [1].' }),
        }),
      )
      .readonly(),
    losses: z
      .array(
        z.discriminatedUnion('reached', [
          z.strictObject({
            reached: z.literal(true),
            lostShare: z.number(),
            suctionPressurePa: statedSchema,
            vacuumPa: statedSchema,
            text: z.string(),
          }),
          z.strictObject({
            reached: z.literal(false),
            lostShare: z.number(),
            downToPa: statedSchema,
            text: z.string(),
          }),
        ]),
      )
      .readonly(),
  }),
);
export type SuctionResult = z.infer<typeof suctionSchema>;
