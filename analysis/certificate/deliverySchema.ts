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
  /** V_i n − q₁: measured; null where none is told. */
  slipM3PerS: statedValue.nullable().default(null),
  /** The same by the clearances of the strip sheet. */
  predictedSlipM3PerS: statedValue.nullable().default(null),
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
  /** The formula done once, number by number, for a pocket calculator. */
  workedLine: z.string().default(''),
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

/** The law at a speed that was run, with its expanded uncertainty, as it is drawn. */
const lawBand = z.strictObject({
  speedRevPerS: z.number(),
  points: z.array(
    z.strictObject({
      differentialPressurePa: z.number(),
      flowM3PerS: z.number(),
      expandedUncertaintyM3PerS: z.number().nonnegative(),
    }),
  ),
});
export type LawBand = z.infer<typeof lawBand>;

/** Volumetric efficiency q/(V_i n) over speed (rows) and pressure difference (columns). */
const efficiencyTable = z.strictObject({
  oilName: z.string(),
  oilTemperatureK: z.number(),
  dynamicViscosityPaS: z.number(),
  densityKgPerM3: z.number(),
  clearances: z.string(),
  /** Its oil temperature lies outside the holds. */
  isAllExtrapolated: z.boolean(),
  differentialPressuresPa: z.array(z.number()),
  rows: z.array(
    z.strictObject({
      speedRevPerS: z.number(),
      cells: z.array(
        z.strictObject({
          derivedEfficiency: z.number(),
          expandedUncertainty: z.number().nonnegative(),
          isExtrapolated: z.boolean(),
        }),
      ),
    }),
  ),
});
export type EfficiencyTable = z.infer<typeof efficiencyTable>;

export const delivery = z.strictObject({
  runId: recordId,
  holds: z.array(certificateHold),
  law: certificateLaw,
  capacityRatio: statedValue.nullable(),
  /** V_i by two straight lines in the manner of ISO 8426; null where the set points do not allow it. */
  twoStepCapacityM3PerRev: statedValue.nullable().default(null),
  bands: z.array(lawBand).default([]),
  efficiencyMap: efficiencyTable.nullable().default(null),
  /** What the law says about the duty's operating points, by the id of the demand. */
  outlook: z.array(z.strictObject({ demandId: z.string(), inWords: z.string() })).default([]),
  /** Against geometry and strip sheet, in sentences. */
  againstTheory: z.array(z.string()).default([]),
  /** How well the law fits, in words. */
  lackOfFit: z.string().default(''),
  /** What is not slip: what each check of the run read, in words. */
  checks: z
    .array(z.strictObject({ name: z.string(), read: z.enum(['sign', 'no sign', 'cannot tell']), text: z.string() }))
    .default([]),
});
export type CertificateDelivery = z.infer<typeof delivery>;
