import { z } from 'zod';
import { recordId, wetnessClass } from '../records/fields.ts';
import { drySeriesSchema } from '../resultSchema/drySeriesSchema.ts';
import { dryTogetherSchema } from '../resultSchema/dryTogetherSchema.ts';
import { statedValue } from './statedValue.ts';

/** A value with an interval of 95 % that need not lie evenly about it. */
const interval = z.strictObject({ value: z.number(), lower: z.number(), upper: z.number() });

/** What a fitted model says of a dry pump; proves nothing. */
const dryLiftEstimate = z.strictObject({
  /** Limits, what the readings did not tell, and what is predicted for the machine; a sentence each. */
  inWords: z.array(z.string()),
  capacityBasis: z.enum(['derived', 'geometry']),
  /** C of leak-back, G = C (p_d² − p²). */
  gapConstantM3PerSPerPa: interval,
  deadVolumeM3: interval,
  carryOverShare: interval,
  gapChange: z.enum(['changes', 'constant', 'undecided']),
  limits: z.array(z.strictObject({ speedRevPerS: z.number(), limitM: interval, blankOffPressurePa: interval })),
  search: z.strictObject({
    readingCount: z.int(),
    iterations: z.int(),
    startCount: z.int(),
    noiseFactor: z.number(),
  }),
  /** By the model, of the start, of several the fastest; times since the run's first reading. */
  course: z.strictObject({
    elapsedS: z.array(z.number()),
    suctionPressurePa: z.array(z.number()),
    columnHeightM: z.array(z.number()).nullable(),
  }),
});

const startEvent = z.enum(['motorStart', 'firstSuction', 'oilAtInlet', 'oilAtOutlet', 'sustainedDelivery']);
const eventSign = z.enum(['speed', 'suctionPressure', 'deliveryPressure', 'flow']);

export const dryLift = z.strictObject({
  runId: recordId,
  /** 'blanked': against a shut suction, no oil was to come. */
  kind: z.enum(['lift', 'blanked']).default('lift'),
  /** What is proven, or not, in a sentence. */
  inWords: z.string(),
  /** Null: refused, or written before estimates were told. */
  estimate: dryLiftEstimate.nullable().default(null),
  /** Why it did not prime, or between what it cannot be told; empty where it did, or in those written before causes were told. */
  diagnosisInWords: z.array(z.string()).default([]),
  hasPrimed: z.boolean(),
  primingTimeS: statedValue.nullable(),
  /** Since the run's first reading. */
  motorStartS: z.number(),
  oilAtInletS: z.number().nullable(),
  /** Those that were seen, since the run's first reading; empty in those written before they were told. */
  events: z.array(z.strictObject({ event: startEvent, atS: statedValue, from: eventSign })).default([]),
  watchedForS: z.number().nullable(),
  speedRevPerS: z.number(),
  staticLiftM: z.number(),
  wetness: wetnessClass,
  barometerPa: z.number(),
  oilDensityKgPerM3: z.number(),
  columnPressurePa: z.number(),
  lowestSuctionPressurePa: statedValue.nullable(),
});
export type CertificateDryLift = z.infer<typeof dryLift>;

/** Dry starts prepared alike, as one piece of evidence. */
export const dryLiftSeries = drySeriesSchema.omit({ starts: true }).extend({
  /** What it proves, where further times lie, whether there is a trend; a sentence each. */
  inWords: z.array(z.string()),
  starts: z.array(
    z.strictObject({
      runId: recordId,
      primingTimeS: statedValue.nullable(),
      watchedForS: z.number().nullable(),
      whyNotCounted: z.string().nullable(),
    }),
  ),
});
export type CertificateDrySeries = z.infer<typeof dryLiftSeries>;

/** A lift and a blanked run of the certificate, fitted together. */
export const dryLiftTogether = dryTogetherSchema.extend({
  /** The limit by both, what each alone says, and what is predicted for the machine; a sentence each. */
  inWords: z.array(z.string()),
});
export type CertificateDryTogether = z.infer<typeof dryLiftTogether>;
