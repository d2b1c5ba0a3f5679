import { z } from 'zod';
import { wetnessClass } from './fields.ts';
import { machineSuction } from './suctionPipe.ts';

/** Where a demand comes from; printed beside every verdict. */
export const demandOrigin = z.enum([
  'maker',
  "machine's own calculation",
  'in the manner of a standard',
  'sister pump',
  'as found before the strip',
  'house limit',
]);

const operatingPoint = z.strictObject({
  speedRevPerS: z.number().positive(),
  differentialPressurePa: z.number().nonnegative(),
  /** Oil at the pump inlet; the run's own oil. */
  oilTemperatureK: z.number().positive(),
});
export type OperatingPoint = z.infer<typeof operatingPoint>;

const common = { id: z.string().min(1), origin: demandOrigin, note: z.string().default('') };

/** One thing the machine asks of the pump. */
export const demand = z.discriminatedUnion('quantity', [
  z.strictObject({
    ...common,
    quantity: z.literal('deliveredFlow'),
    at: operatingPoint,
    atLeastM3PerS: z.number().positive(),
  }),
  z.strictObject({
    ...common,
    quantity: z.literal('volumetricEfficiency'),
    at: operatingPoint,
    atLeast: z.number().positive().max(1),
  }),
  /** Derived capacity over the swept volume of the geometry. */
  z.strictObject({
    ...common,
    quantity: z.literal('capacityRatio'),
    atLeast: z.number().positive(),
    atMost: z.number().positive(),
  }),
  /** Oil arrives from dry, at this lift or more, within this time. */
  z.strictObject({
    ...common,
    quantity: z.literal('primingTime'),
    staticLiftM: z.number().positive(),
    atMostSpeedRevPerS: z.number().positive(),
    wetness: wetnessClass,
    atMostS: z.number().positive(),
    /** So many starts, all of them, must prime. */
    starts: z.int().positive().default(1),
  }),
]);
export type Demand = z.infer<typeof demand>;

export const dutyRecord = z.strictObject({
  machine: z.string().min(1),
  demands: z.array(demand),
  /** The suction side in the machine; null: nothing is predicted for it. */
  suction: machineSuction.nullable().default(null),
});
