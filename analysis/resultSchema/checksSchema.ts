import { z } from 'zod';
import { statedSchema } from './statedSchema.ts';

/** What a check read: a sign, none, or that the run does not hold what the check needs. */
function checkSchema<Numbers extends z.ZodType>(numbers: Numbers) {
  return z.discriminatedUnion('read', [
    z.strictObject({ read: z.enum(['sign', 'no sign']), numbers, text: z.string() }),
    z.strictObject({ read: z.literal('cannot tell'), code: z.string(), text: z.string() }),
  ]);
}

const holdNumbers = z.array(z.int()).readonly();

/** What is not slip. */
export const checksSchema = z
  .strictObject({
    filling: checkSchema(
      z.strictObject({
        levels: z.array(z.strictObject({ speedRevPerS: z.number(), flowPerTurnM3PerRev: statedSchema })).readonly(),
        largestFall: statedSchema.meta({ description: 'Of flow per turn from a speed to a faster one [1].' }),
        knee: z.strictObject({ lastFilledRevPerS: z.number(), firstUnfilledRevPerS: z.number() }).nullable(),
        holdNumbersBeyond: holdNumbers,
      }),
    ),
    relief: checkSchema(
      z.strictObject({
        lowerPa: z.number().meta({ description: 'The break lies between these pressure differences.' }),
        upperPa: z.number(),
        lostShare: z.number(),
        lostShareStandardUncertainty: z.number(),
        chanceProbability: z.number(),
        holdNumbersBeyond: holdNumbers,
      }),
    ),
    drift: checkSchema(
      z.strictObject({
        firstHoldNumber: z.int(),
        repeatHoldNumber: z.int(),
        shift: statedSchema.meta({ description: 'Of flow per turn from the first hold to its repeat [1].' }),
      }),
    ),
    air: checkSchema(
      z.strictObject({
        pairs: z
          .array(
            z.strictObject({ holdNumber: z.int(), clearerHoldNumber: z.int(), how: z.string(), lost: statedSchema }),
          )
          .readonly(),
      }),
    ),
    hysteresis: checkSchema(
      z.strictObject({
        pairs: z
          .array(
            z.strictObject({
              fromBelowHoldNumber: z.int(),
              fromAboveHoldNumber: z.int(),
              speedRevPerS: z.number(),
              differentialPressurePa: z.number(),
              difference: statedSchema.meta({ description: 'Of flow per turn, from above less from below [1].' }),
            }),
          )
          .readonly(),
      }),
    ),
  })
  .meta({ description: 'Signs of what is not slip: filling, relief valve, drift, air in the oil, hysteresis.' });
export type Checks = z.infer<typeof checksSchema>;
