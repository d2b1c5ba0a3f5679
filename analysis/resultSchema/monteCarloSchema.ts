import { z } from 'zod';
import { spanSchema } from './statedSchema.ts';

const trialValue = z.strictObject({
  mean: z.number(),
  standardDeviation: z.number(),
  symmetricInterval: spanSchema.meta({ description: '95 %, as many trials below as above.' }),
  shortestInterval: spanSchema,
  endStandardErrors: spanSchema,
  comparison: z
    .strictObject({
      byPropagation: spanSchema,
      differences: spanSchema,
      tolerance: z.number(),
      agrees: z.boolean(),
      contains: z.boolean(),
    })
    .meta({ description: 'The interval by the law of propagation against that of the trials (JCGM 101:2008, 8).' }),
});

/** The chain from errors to results by trials, beside the law of propagation. */
export const monteCarloSchema = z
  .strictObject({
    trials: z.int(),
    seed: z.int(),
    failedTrials: z.int(),
    derivedCapacityM3PerRev: trialValue,
    laminarSlipM3: trialValue,
    points: z
      .array(z.strictObject({ demandId: z.string(), flowM3PerS: trialValue, derivedEfficiency: trialValue }))
      .readonly(),
  })
  .meta({ description: 'JCGM 101:2008; intervals in the unit of the key that holds them.' });
export type MonteCarlo = z.infer<typeof monteCarloSchema>;
