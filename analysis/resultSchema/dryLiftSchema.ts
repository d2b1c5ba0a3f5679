import { z } from 'zod';
import { wetnessClass } from '../records/fields.ts';
import { diagnosisSchema } from './diagnosisSchema.ts';
import { startEventsSchema } from './startEventsSchema.ts';
import { outcomeSchema, refusalSchema, statedSchema } from './statedSchema.ts';

/** No primingTimeS = -1, no null: the wrong state cannot be written. */
const primingSchema = z.discriminatedUnion('primed', [
  z.strictObject({
    primed: z.literal(true),
    primingTimeS: statedSchema.meta({ description: 'From motor start to sustained delivery at the outlet.' }),
    motorStartS: z.number(),
    sustainedDeliveryS: z.number(),
  }),
  z.strictObject({ primed: z.literal(false), motorStartS: z.number(), watchedForS: z.number() }),
]);
export type Priming = z.infer<typeof primingSchema>;

export const intervalSchema = z.strictObject({ value: z.number(), lower: z.number(), upper: z.number() }).meta({
  id: 'Interval',
  description: 'A value in SI, its unit in the name of its key, with an interval of 95 % that need not lie evenly.',
});

export const timeIntervalSchema = z
  .strictObject({ value: z.number().nullable(), lower: z.number().nullable(), upper: z.number().nullable() })
  .meta({ id: 'TimeInterval', description: 'A time in seconds with its interval of 95 %; null: never.' });

const limitAtSpeed = z
  .strictObject({
    speedRevPerS: z.number(),
    limitM: intervalSchema,
    limitBudgetM: statedSchema.meta({
      description: 'The same by linear propagation, for its budget alone: its interval is no match for the other.',
    }),
    blankOffPressurePa: intervalSchema,
  })
  .meta({ description: 'In the wetness class of the run, at its air and oil.' });

const startCourse = z
  .strictObject({
    kind: z.enum(['lift', 'blanked']),
    motorStartS: z.number(),
    speedRevPerS: z.number(),
    fittedUntilS: z.number().meta({ description: 'No oil can have been in the pump before.' }),
    course: z.strictObject({
      elapsedS: z.array(z.number()).readonly(),
      suctionPressurePa: z.array(z.number()).readonly(),
      columnHeightM: z.array(z.number()).readonly().nullable().meta({ description: 'Null: no oil was to be taken.' }),
    }),
  })
  .meta({ description: "A start that was fitted, and the model's course of it; times in the run's elapsed time." });

/** What a dry pump would do in its machine: nobody has made that start. */
const machinePrediction = z.strictObject({
  isPrediction: z.literal(true),
  speedRevPerS: z.number(),
  staticLiftM: z.number(),
  oilTemperatureK: z.number(),
  barometerPa: z.number(),
  limitM: intervalSchema,
  marginM: intervalSchema.meta({ description: 'Limit less lift.' }),
  primingTimeS: timeIntervalSchema.meta({ description: 'Motor start to delivery.' }),
  lowestInletPressurePa: intervalSchema,
  leastInletPressurePa: z.number().nullable().meta({ description: 'The limit that a person set; null: none.' }),
  isAboveLeastPressure: z.enum(['yes', 'no', 'not proven']).nullable().meta({ description: 'Null: no limit was set.' }),
  isOilExtrapolated: z.boolean(),
});

export const machineOutcome = outcomeSchema(machinePrediction)
  .nullable()
  .meta({ description: "Null: the machine's suction is not known." });
export type MachineOutcome = z.infer<typeof machineOutcome>;

const toldOf = z.enum(['told', 'from its range']);

const estimateSchema = z.strictObject({
  capacityBasis: z.enum(['derived', 'geometry']),
  gapConstantM3PerSPerPa: intervalSchema.meta({
    description: 'C of leak-back, G = C (p_d^2 - p^2), G pressure times volume in a second; in the end of the start.',
  }),
  deadVolumeM3: intervalSchema,
  carryOverShare: intervalSchema.meta({ description: 'Share of the capacity that the mesh brings back [1].' }),
  gapChange: z.strictObject({
    verdict: z.enum(['changes', 'constant', 'undecided']),
    startRatio: intervalSchema
      .nullable()
      .meta({ description: 'C at the start over C in the end; null: not changing.' }),
  }),
  identified: z
    .strictObject({ leakBack: toldOf, deadVolume: toldOf, carryOver: toldOf })
    .meta({ description: 'Whether the readings told it, or it stayed within what was stated or any pump may have.' }),
  search: z.strictObject({
    hasConverged: z.boolean(),
    iterations: z.int(),
    startCount: z.int(),
    readingCount: z.int(),
    noiseFactor: z.number().meta({ description: 'Scatter about the model over the noise [1].' }),
  }),
  starts: z.array(startCourse).readonly(),
  limits: z.array(limitAtSpeed).readonly().meta({ description: 'One for each speed that was run, fastest first.' }),
  machine: machineOutcome,
  warnings: z.array(refusalSchema).readonly(),
});
export type DryLiftEstimateResult = z.infer<typeof estimateSchema>;

const riserCheck = z
  .strictObject({
    atS: z
      .number()
      .nullable()
      .meta({ description: "In the run's elapsed time; null: the highest, its time not noted." }),
    sinceMotorStartS: z.number().nullable(),
    heightM: statedSchema.meta({ description: 'Oil in a clear riser over the oil surface, by tape.' }),
    carriedM: statedSchema
      .nullable()
      .meta({ description: 'Column that the suction carries, (p_atm - p)/(rho g); null: not comparable.' }),
    verdict: z.enum(['agrees', 'contradicts', 'not compared']),
  })
  .meta({ description: 'A clear riser held against the suction channel.' });

export const dryLiftSchema = z.strictObject({
  priming: outcomeSchema(primingSchema).meta({ description: 'Proven: what happened.' }),
  events: startEventsSchema
    .nullable()
    .meta({ description: 'Null: no single start of this kind, or none that could be read.' }),
  diagnosis: diagnosisSchema.nullable().meta({ description: 'Null: it primed, or no oil was to come.' }),
  riser: z.array(riserCheck).readonly(),
  estimate: outcomeSchema(estimateSchema).meta({
    description: 'Estimated: what the fitted model says; proves nothing.',
  }),
  speedRevPerS: z.number(),
  staticLiftM: z.number(),
  wetness: wetnessClass,
  barometerPa: z.number(),
  oilDensityKgPerM3: z.number(),
  lowestSuctionPressurePa: statedSchema
    .nullable()
    .meta({ description: 'Held for half a second after motor start (absolute).' }),
  columnPressurePa: z
    .number()
    .meta({ description: 'At the inlet, as the standing column asks for: p_atm - rho g h (absolute).' }),
});
export type DryLiftResult = z.infer<typeof dryLiftSchema>;
