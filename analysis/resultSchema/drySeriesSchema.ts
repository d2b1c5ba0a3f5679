import { z } from 'zod';
import { wetnessClass } from '../records/fields.ts';
import { runLabel } from '../records/runRecord.ts';
import { refusalSchema, statedSchema } from './statedSchema.ts';

const seriesStartSchema = z.strictObject({
  runId: z.string(),
  startedAtUtc: z.string(),
  primingTimeS: statedSchema.nullable().meta({ description: 'Null: no oil came.' }),
  watchedForS: z.number().nullable().meta({ description: 'Null: oil came.' }),
  whyNotCounted: z.string().nullable().meta({ description: 'Null: it counts.' }),
});

const trendSchema = z.discriminatedUnion('verdict', [
  z.strictObject({ verdict: z.literal('too few'), needed: z.int() }),
  z.strictObject({
    verdict: z.enum(['faster', 'slower', 'no sign']),
    changePerStart: z
      .strictObject({ value: z.number(), lower: z.number(), upper: z.number() })
      .meta({ description: 'Of the time, from one start to the next, with an interval of 95 % [1].' }),
    byChance: z.number().min(0).max(1),
  }),
]);
export type SeriesTrend = z.infer<typeof trendSchema>;

/** Dry starts of a pump that were prepared alike, as one piece of evidence. */
export const drySeriesSchema = z.strictObject({
  wetness: wetnessClass,
  label: runLabel,
  speedRevPerS: z.number().meta({ description: 'The fastest of the starts that count.' }),
  staticLiftM: z.number().meta({ description: 'The lowest of the starts that count.' }),
  starts: z.array(seriesStartSchema).readonly().meta({ description: 'In the order in which they were made.' }),
  countedStarts: z.int().positive(),
  primedStarts: z.int().nonnegative(),
  successRateAtLeast: z.number().min(0).max(1).meta({ description: 'One-sided, with a confidence of 95 % [1].' }),
  tolerance: z
    .strictObject({
      lowerS: z.number(),
      upperS: z.number(),
      factor: z.number(),
      geometricMeanS: z.number(),
    })
    .nullable()
    .meta({
      description:
        'Holds 95 % of the times of starts prepared alike with a confidence of 95 %, the common error of the times counted in; null: fewer than three times.',
    }),
  trend: trendSchema,
  warnings: z.array(refusalSchema).readonly(),
});
export type DrySeries = z.infer<typeof drySeriesSchema>;
