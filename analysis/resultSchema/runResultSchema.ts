import { z } from 'zod';
import { BAD_LINE_KINDS } from '../readings.ts';
import { demand } from '../records/dutyRecord.ts';
import { recordId } from '../records/fields.ts';
import { holdExclusion, runKind } from '../records/runRecord.ts';
import { againstTheorySchema } from './againstTheorySchema.ts';
import { checksSchema } from './checksSchema.ts';
import { dryLiftSchema } from './dryLiftSchema.ts';
import { dimensionlessSchema, dutyOutlookSchema, efficiencyMapSchema } from './efficiencySchema.ts';
import { reliefSchema, suctionSchema } from './furtherRunsSchema.ts';
import { holdSchema } from './holdSchema.ts';
import { monteCarloSchema } from './monteCarloSchema.ts';
import { drainSchema, nextHoldSchema, slipLawSchema, twoStepSchema } from './slipLawSchema.ts';
import { outcomeSchema, sourceTableSchema, statedSchema, uncertainSchema } from './statedSchema.ts';

const outcomeWord = z.enum(['pass', 'fail', 'not proven', 'measured']);
export type OutcomeWord = z.infer<typeof outcomeWord>;

const findingSchema = z.strictObject({
  code: z.string(),
  severity: z.enum(['note', 'warning', 'unfit']),
  text: z.string().meta({ description: 'What is wrong, what it means, what to do next.' }),
});
export type Finding = z.infer<typeof findingSchema>;

const censusSchema = z.strictObject({
  lineCount: z.int(),
  readingCount: z.int(),
  noteCount: z.int(),
  badLineCounts: z.partialRecord(z.enum(BAD_LINE_KINDS), z.int()),
  lostReadingCount: z.int(),
  reconnectCount: z.int(),
});

const theorySchema = z.strictObject({
  sweptVolumeM3PerRev: statedSchema,
  sweptVolume: uncertainSchema,
  basis: z.string().meta({ description: "'equal external gears, measured', or who stated it." }),
  flowRipple: z
    .number()
    .nullable()
    .meta({ description: 'Ideal flow ripple, (max - min)/mean [1]; null where the type has none computed.' }),
});
export type Theory = z.infer<typeof theorySchema>;

/** What follows from a fitted law. */
const fittedSchema = z.strictObject({
  twoStep: twoStepSchema,
  drain: drainSchema.nullable().meta({ description: 'Null: the bench has no such channel.' }),
  nextHold: nextHoldSchema.meta({ description: 'The set point at which one more hold would narrow a result most.' }),
  map: outcomeSchema(efficiencyMapSchema).meta({
    description: "At the temperature of the first operating point of the duty, else the run's.",
  }),
  dimensionless: dimensionlessSchema,
  outlook: z.array(dutyOutlookSchema).readonly().meta({ description: 'Operating points of the duty.' }),
  againstTheory: againstTheorySchema,
  checks: checksSchema,
  monteCarlo: monteCarloSchema.nullable().meta({ description: 'Null: not asked for.' }),
});
export type Fitted = z.infer<typeof fittedSchema>;

const deliverySchema = z.strictObject({
  holds: z.array(holdSchema).readonly(),
  law: outcomeSchema(slipLawSchema),
  capacityRatio: statedSchema.nullable().meta({ description: 'V_i/V_g [1]; null without a law.' }),
  fitted: fittedSchema.nullable().meta({ description: 'Null: no law.' }),
});
export type DeliveryResult = z.infer<typeof deliverySchema>;

const verdictSchema = z.strictObject({
  demand,
  verdict: outcomeWord,
  speaks: z.boolean().meta({ description: 'False: another run may decide.' }),
  value: statedSchema.nullable().meta({ description: 'Held against the demand; null where there is none.' }),
  conformityProbability: z.number().min(0).max(1).nullable(),
  reason: z.string(),
});
export type DemandVerdict = z.infer<typeof verdictSchema>;

/** What the analysis of a run yields; result.json, the page and the certificate all show this and nothing else. */
export const runResultSchema = z
  .strictObject({
    format: z.literal('slipwright.result/2'),
    analysisVersion: z.string(),
    runId: recordId,
    kind: runKind,
    isPractice: z.boolean().meta({ description: 'A practice bench wrote it: whatever is filed is a specimen.' }),
    census: censusSchema.meta({ description: 'What the decoder counted.' }),
    findings: z
      .array(findingSchema)
      .readonly()
      .meta({ description: "What a reader must know; severity 'unfit' bars every verdict and a certificate." }),
    exclusions: z
      .array(holdExclusion)
      .readonly()
      .meta({ description: 'What a person took out of the fit, or back in, before this was computed.' }),
    sources: sourceTableSchema,
    theory: theorySchema,
    delivery: deliverySchema.nullable().meta({ description: 'Null for other kinds of run; likewise below.' }),
    dryLift: dryLiftSchema.nullable(),
    relief: reliefSchema.nullable(),
    suction: suctionSchema.nullable(),
    verdicts: z.array(verdictSchema).readonly(),
    outcome: outcomeWord,
  })
  .meta({
    title: 'Result of a run',
    description:
      'All numbers are SI, the unit in the name of the key; shares and efficiencies are ratios [1]. Pressures are absolute unless the key says differential.',
  });
export type RunResult = z.infer<typeof runResultSchema>;
