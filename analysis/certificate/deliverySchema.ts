import { z } from 'zod';
import { recordId } from '../records/fields.ts';
import { LAW_TERMS } from '../result.ts';
import { budgetedValue, statedValue } from './statedValue.ts';

const certificateHold = z.strictObject({
  number: z.int().positive(),
  startS: z.number(),
  endS: z.number(),
  readingCount: z.int(),
  effectiveReadingCount: z.number(),
  speedRevPerS: statedValue,
  suctionPressurePa: statedValue,
  deliveryPressurePa: statedValue,
  differentialPressurePa: statedValue,
  flowM3PerS: statedValue,
  /** Drawn in, at the density of the inlet; null in certificates that were written before it was told. */
  inletFlowM3PerS: statedValue.nullable().default(null),
  oilTemperatureK: statedValue,
  dynamicViscosityPaS: z.number(),
  densityKgPerM3: z.number(),
  derivedEfficiency: statedValue.nullable(),
  geometricEfficiency: statedValue,
  residualFlowM3PerS: z.number().nullable(),
  /** Why the hold takes no part in the law; null: it does. */
  leftOut: z
    .strictObject({ cause: z.enum(['person', 'filling', 'relief']), reason: z.string() })
    .nullable()
    .default(null),
});
export type CertificateHold = z.infer<typeof certificateHold>;

const lowAndHigh = z.tuple([z.number(), z.number()]);

const certificateLaw = z.strictObject({
  formula: z.string(),
  inWords: z.string(),
  coefficients: z.strictObject({
    derivedCapacityM3PerRev: budgetedValue,
    laminarSlipM3: budgetedValue,
    orificeSlipM2: budgetedValue,
    speedPressureSlipM3PerPa: budgetedValue,
  }),
  terms: z.array(z.enum(LAW_TERMS)),
  holdCount: z.int(),
  residualDegreesOfFreedom: z.number(),
  reducedChiSquare: z.number(),
  range: z.strictObject({
    speedRevPerS: lowAndHigh,
    differentialPressurePa: lowAndHigh,
    oilTemperatureK: lowAndHigh,
  }),
});
export type CertificateLaw = z.infer<typeof certificateLaw>;

export const delivery = z.strictObject({
  runId: recordId,
  holds: z.array(certificateHold),
  law: certificateLaw,
  capacityRatio: statedValue.nullable(),
  /** V_i by two straight lines in the manner of ISO 8426; null where the set points do not allow it. */
  twoStepCapacityM3PerRev: statedValue.nullable().default(null),
  /** How well the law fits, in words. */
  lackOfFit: z.string().default(''),
  /** What is not slip: what each check of the run read, in words. */
  checks: z
    .array(z.strictObject({ name: z.string(), read: z.enum(['sign', 'no sign', 'cannot tell']), text: z.string() }))
    .default([]),
});
export type CertificateDelivery = z.infer<typeof delivery>;
