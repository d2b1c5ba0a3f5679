import { z } from 'zod';
import { refusalSchema, statedSchema } from './statedSchema.ts';

const eventSchema = z.discriminatedUnion('seen', [
  z.strictObject({
    seen: z.literal(true),
    atS: statedSchema,
    from: z.enum(['speed', 'suctionPressure', 'deliveryPressure', 'flow']).meta({ description: 'Read from.' }),
  }),
  z.strictObject({ seen: z.literal(false), reason: refusalSchema }),
]);
export type StartEventResult = z.infer<typeof eventSchema>;

/** In the order in which they happen. */
export const startEventsSchema = z
  .strictObject({
    motorStart: eventSchema,
    firstSuction: eventSchema.meta({ description: 'Suction 0.1 kPa below rest, and staying there.' }),
    oilAtInlet: eventSchema.meta({ description: 'The column has come to the pump flange.' }),
    oilAtOutlet: eventSchema.meta({ description: 'First oil at the outlet port, were it but a burst.' }),
    sustainedDelivery: eventSchema.meta({ description: 'The flow at the outlet port has met the criterion for good.' }),
  })
  .meta({ description: "Events of a dry start in the run's elapsed time, or why one was not seen." });
export type StartEventsResult = z.infer<typeof startEventsSchema>;
export type StartEventName = keyof StartEventsResult;
