import { z } from 'zod';
import { outcomeSchema, refusalSchema, statedSchema } from './statedSchema.ts';

const beyond = z
  .array(z.enum(['speed', 'pressure', 'temperature', 'viscosity']))
  .readonly()
  .meta({ description: 'In what the point lies outside the holds; empty: it does not.' });

const numbers = z.array(z.number()).readonly();
const mapSheet = z.strictObject({ values: numbers, expandedUncertainties: numbers });

export const efficiencyMapSchema = z
  .strictObject({
    oilName: z.string(),
    oilTemperatureK: z.number(),
    dynamicViscosityPaS: z.number(),
    densityKgPerM3: z.number(),
    speedsRevPerS: numbers,
    differentialPressuresPa: numbers,
    derivedEfficiency: mapSheet.meta({ description: 'q/(V_i n) [1].' }),
    geometricEfficiency: mapSheet.meta({ description: 'q/(V_g n) [1].' }),
    isExtrapolated: z.array(z.boolean()).readonly(),
    beyondEverywhere: beyond,
    clearances: z.string(),
  })
  .meta({
    id: 'EfficiencyMap',
    description: 'Sheets run speed by speed within each pressure; each value with its expanded uncertainty (95 %).',
  });

const speedSchema = outcomeSchema(z.strictObject({ speedRevPerS: statedSchema, beyond }));

const hottestOilSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('limit'), temperatureK: statedSchema, beyond }),
  z.strictObject({ kind: z.literal('neverFails'), upToK: z.number() }),
  z.strictObject({ kind: z.literal('alwaysFails'), fromK: z.number() }),
  z.strictObject({ kind: z.literal('partsBind'), atK: z.number(), reason: refusalSchema }),
]);

const dutyBand = z.strictObject({ flowM3PerS: statedSchema, derivedEfficiency: statedSchema });

const testOilSchema = outcomeSchema(
  z.strictObject({
    grade: z.string(),
    viscosityAtBenchM2PerS: z.number(),
    wantedM2PerS: z.number(),
    matchingTemperatureK: z
      .number()
      .meta({ description: 'At which the middle of the grade has just the wanted viscosity.' }),
    uncertaintyRatio: z
      .number()
      .meta({ description: "Standard uncertainty of the duty's flow with the test oil over that with the machine's." }),
    before: dutyBand,
    after: dutyBand,
  }),
);

/** What the law says about one operating point of the duty. */
export const dutyOutlookSchema = z.strictObject({
  demandId: z.string(),
  flowM3PerS: statedSchema.meta({ description: 'At the duty point, clearances as hot as there.' }),
  slipM3PerS: statedSchema,
  derivedEfficiency: statedSchema,
  clearances: z.string(),
  slowestHoldingPressure: speedSchema.meta({
    description: 'At which the pump holds the pressure and delivers nothing.',
  }),
  slowestMeetingDemand: speedSchema,
  hottestOil: hottestOilSchema,
  testOil: testOilSchema,
});
export type DutyOutlook = z.infer<typeof dutyOutlookSchema>;

export const dimensionlessSchema = z.strictObject({
  points: z
    .array(
      z.strictObject({
        holdNumber: z.int(),
        speedNumber: z.number().meta({ description: 'S = mu n/dp [1].' }),
        measuredEfficiency: z.number(),
        correctedEfficiency: z.number(),
        deviation: z.number().nullable(),
        leavesCurve: z.boolean(),
        isInFit: z.boolean(),
      }),
    )
    .readonly(),
  slipNumber: z.number().meta({ description: 'The curve is 1 - slipNumber/S.' }),
  limit: z.number().nullable(),
  withoutPlace: z.array(z.int()).readonly(),
});
