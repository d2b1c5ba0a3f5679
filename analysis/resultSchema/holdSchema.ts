import { z } from 'zod';
import { CHANNEL_NAMES } from '../channels.ts';
import { statedSchema } from './statedSchema.ts';

/** A hold: a stretch in which everything stood still long enough to be averaged. */
export const holdSchema = z.strictObject({
  number: z.int().positive().meta({ description: 'Counted from 1.' }),
  startS: z.number(),
  endS: z.number(),
  readingCount: z.int(),
  effectiveReadingCount: z
    .number()
    .meta({ description: 'Independent readings behind the flow mean, from its autocorrelation.' }),
  wildReadingCount: z.int().meta({ description: 'Single wild values left out of the means, over all channels.' }),
  leftOut: z
    .strictObject({ cause: z.enum(['person', 'filling', 'relief']), reason: z.string() })
    .nullable()
    .meta({ description: 'Why the hold takes no part in the fit; null: it does.' }),
  drifts: z
    .array(z.strictObject({ channel: z.enum(CHANNEL_NAMES), change: z.number(), standardUncertainty: z.number() }))
    .readonly()
    .meta({
      description: 'Channels that moved within their limits but beyond their scatter: change over the hold, SI.',
    }),
  speedRevPerS: statedSchema,
  suctionPressurePa: statedSchema,
  deliveryPressurePa: statedSchema,
  differentialPressurePa: statedSchema,
  flowM3PerS: statedSchema.meta({ description: 'q2, at the outlet port.' }),
  inletFlowM3PerS: statedSchema.meta({
    description: 'q1 = q2 rho2/rho1 + external drain, of which the slip law speaks.',
  }),
  oilTemperatureK: statedSchema,
  dynamicViscosityPaS: statedSchema,
  densityKgPerM3: statedSchema,
  externalDrainM3PerS: statedSchema.nullable(),
  caseTemperatureK: statedSchema.nullable(),
  torqueNM: statedSchema.nullable(),
  motorPowerW: statedSchema.nullable(),
  geometricEfficiency: statedSchema.meta({ description: 'q/(V_g n): delivery against geometry [1].' }),
  derivedEfficiency: statedSchema
    .nullable()
    .meta({ description: 'q/(V_i n), ISO 4391 [1]; null where no law was fitted, likewise below.' }),
  hydraulicPowerW: statedSchema.nullable(),
  hydromechanicalEfficiency: statedSchema.nullable().meta({ description: 'V_i dp/(2 pi T) [1]; needs torque.' }),
  totalEfficiency: statedSchema.nullable().meta({ description: 'Hydraulic over shaft power [1]; needs torque.' }),
  overallEfficiency: statedSchema
    .nullable()
    .meta({ description: 'Hydraulic power over what the motor draws, its own losses within [1]; needs motor power.' }),
  residualFlowM3PerS: z
    .number()
    .nullable()
    .meta({ description: 'Measured minus fitted; null where the hold is not in the fit, likewise below.' }),
  leverage: z.number().nullable().meta({ description: 'Share of its own flow in its fitted flow [1].' }),
  studentisedResidual: z.number().nullable(),
  deletedResidualM3PerS: z.number().nullable().meta({ description: 'Against the law of all the other holds.' }),
});
export type HoldResult = z.infer<typeof holdSchema>;
