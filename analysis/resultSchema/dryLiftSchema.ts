import { z } from 'zod';
import { wetnessClass } from '../records/fields.ts';
import { outcomeSchema, statedSchema } from './statedSchema.ts';

/** No primingTimeS = -1, no null: the wrong state cannot be written. */
const primingSchema = z.discriminatedUnion('primed', [
  z.strictObject({
    primed: z.literal(true),
    primingTimeS: statedSchema.meta({ description: 'From motor start to sustained delivery at the outlet.' }),
    motorStartS: z.number(),
    oilAtInletS: z
      .number()
      .nullable()
      .meta({ description: 'The suction pressure stops falling; null where the channel does not show it.' }),
    sustainedDeliveryS: z.number(),
  }),
  z.strictObject({ primed: z.literal(false), motorStartS: z.number(), watchedForS: z.number() }),
]);
export type Priming = z.infer<typeof primingSchema>;

export const dryLiftSchema = z.strictObject({
  priming: outcomeSchema(primingSchema),
  speedRevPerS: z.number(),
  staticLiftM: z.number(),
  wetness: wetnessClass,
  barometerPa: z.number(),
  oilDensityKgPerM3: z.number(),
  lowestSuctionPressurePa: statedSchema
    .nullable()
    .meta({ description: 'Held for half a second after motor start (absolute).' }),
  columnPressurePa: z
    .number()
    .meta({ description: 'At the inlet, as the standing column asks for: p_atm - rho g h (absolute).' }),
});
export type DryLiftResult = z.infer<typeof dryLiftSchema>;
