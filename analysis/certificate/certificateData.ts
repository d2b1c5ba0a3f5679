import { z } from 'zod';
import { CHANNEL_NAMES } from '../channels.ts';
import { calibration, holdLimits } from '../records/benchRecord.ts';
import { demand } from '../records/dutyRecord.ts';
import { recordId, sha256Hex, utcInstant, wetnessClass } from '../records/fields.ts';
import { oilRecord } from '../records/oilRecord.ts';
import { pumpRecord } from '../records/pumpRecord.ts';
import { holdExclusion, runKind, runLabel, setUp, zeroCheck } from '../records/runRecord.ts';
import { LAW_TERMS } from '../result.ts';

/** A certificate's number: year of issue and a counter. */
const certificateNumber = z.string().regex(/^\d{4}-\d{4,6}$/, "a year and a counter, as in '2026-0001'");

const outcomeWord = z.enum(['pass', 'fail', 'not proven', 'measured']);

/** A value with standard and expanded uncertainty (95 %), in the unit its key names. */
const statedValue = z.strictObject({
  value: z.number(),
  standardUncertainty: z.number().nonnegative(),
  coverageFactor: z.number().nonnegative(),
  expandedUncertainty: z.number().nonnegative(),
  /** Null: every source is taken as known. */
  degreesOfFreedom: z.number().positive().nullable(),
});
export type StatedValue = z.infer<typeof statedValue>;

/** The same with where the uncertainty comes from, largest first. */
const budgetedValue = statedValue.extend({
  budget: z.array(z.strictObject({ label: z.string(), kind: z.enum(['random', 'calibration']), share: z.number() })),
});
export type BudgetedValue = z.infer<typeof budgetedValue>;

const certificateRun = z.strictObject({
  id: recordId,
  kind: runKind,
  label: runLabel,
  startedAtUtc: utcInstant,
  closedAtUtc: utcInstant,
  ending: z.enum(['completed', 'stopped']),
  operator: z.string(),
  isPractice: z.boolean(),
  programVersion: z.string(),
  analysisVersion: z.string(),
  bench: z.strictObject({ id: recordId, version: z.int().positive() }),
  lineCount: z.int().nonnegative(),
  readingCount: z.int().nonnegative(),
  byteLength: z.int().nonnegative(),
  sha256: z.strictObject({ run: sha256Hex, journal: sha256Hex, marks: sha256Hex }),
  mounting: z.int().positive().default(1),
  zeroCheck: zeroCheck.nullable().default(null),
  /** The strip sheet in force; null: none. */
  stripSheet: z.strictObject({ id: recordId, version: z.int().positive() }).nullable().default(null),
  /** What a person took out of the fit, or back in, and why. */
  exclusions: z.array(holdExclusion).default([]),
});
export type CertificateRun = z.infer<typeof certificateRun>;

const instrument = z.strictObject({
  channel: z.enum(CHANNEL_NAMES),
  instrument: z.string(),
  /** Unit of range and offset; the gain is relative [1]. */
  unit: z.string(),
  range: z.strictObject({ min: z.number(), max: z.number() }),
  calibration: calibration.nullable(),
});

const certificateBench = z.strictObject({
  id: recordId,
  version: z.int().positive(),
  name: z.string(),
  workshop: z.string(),
  instruments: z.array(instrument),
  holdLimits,
});
export type CertificateBench = z.infer<typeof certificateBench>;

const conditions = z.strictObject({
  runId: recordId,
  oil: oilRecord,
  setUp,
  /** Lowest and highest of the holds; null where the run has none. */
  oilTemperatureK: z.strictObject({ lowest: z.number(), highest: z.number() }).nullable(),
});
export type CertificateConditions = z.infer<typeof conditions>;

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

const delivery = z.strictObject({
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

const dryLift = z.strictObject({
  runId: recordId,
  /** 'blanked': against a shut suction, no oil was to come. */
  kind: z.enum(['lift', 'blanked']).default('lift'),
  /** What is proven, or not, in a sentence. */
  inWords: z.string(),
  /** Null: refused, or written before estimates were told. */
  estimate: dryLiftEstimate.nullable().default(null),
  hasPrimed: z.boolean(),
  primingTimeS: statedValue.nullable(),
  /** Since the run's first reading. */
  motorStartS: z.number(),
  oilAtInletS: z.number().nullable(),
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

const certificateDemand = z.strictObject({
  demand,
  verdict: outcomeWord,
  /** The run that speaks to the demand; null where none does. */
  runId: recordId.nullable(),
  value: budgetedValue.nullable(),
  conformityProbability: z.number().min(0).max(1).nullable(),
  reason: z.string(),
});
export type CertificateDemand = z.infer<typeof certificateDemand>;

/** Everything a certificate says, as plain JSON: SI, the unit in every name. */
export const certificateData = z.strictObject({
  format: z.literal('slipwright.certificate/1'),
  number: certificateNumber,
  title: z.string(),
  outcome: outcomeWord,
  /** From the practice bench: no pump was tested. */
  isSpecimen: z.boolean(),
  sentence: z.string(),
  scope: z.string(),
  issuedAtUtc: utcInstant,
  signatory: z.string().min(1),
  workshop: z.string().min(1),
  programVersion: z.string(),
  pump: pumpRecord,
  runs: z.array(certificateRun).min(1),
  benches: z.array(certificateBench).min(1),
  conditions: z.array(conditions).min(1),
  theory: z.strictObject({
    basis: z.string(),
    sweptVolumeM3PerRev: statedValue,
    flowRipple: z.number().nullable(),
    derivedCapacityM3PerRev: statedValue.nullable(),
    capacityRatio: statedValue.nullable(),
  }),
  delivery: z.array(delivery),
  dryLift: z.array(dryLift),
  demands: z.array(certificateDemand),
  decisionRule: z.string(),
  uncertaintyStatement: z.string(),
  findings: z.array(
    z.strictObject({ runId: recordId, code: z.string(), severity: z.enum(['note', 'warning']), text: z.string() }),
  ),
  cautions: z.array(z.string()),
  verification: z.strictObject({ how: z.array(z.string()), cannotKnow: z.array(z.string()) }),
  /** The certificate filed before this one; null for an archive's first. */
  previous: z.strictObject({ number: certificateNumber, jsonSha256: sha256Hex, pdfSha256: sha256Hex }).nullable(),
});
export type CertificateData = z.infer<typeof certificateData>;
export type PreviousCertificate = NonNullable<CertificateData['previous']>;
