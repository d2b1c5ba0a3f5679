import { z } from 'zod';
import { LAW_TERMS } from '../delivery/lawTerms.ts';
import { outcomeSchema, spanSchema, statedSchema, uncertainSchema } from './statedSchema.ts';

const lawTerm = z.enum(LAW_TERMS);

function byTerm<Value extends z.ZodType>(value: Value) {
  return z.strictObject({
    derivedCapacityM3PerRev: value,
    laminarSlipM3: value,
    orificeSlipM2: value,
    speedPressureSlipM3PerPa: value,
  });
}

/** Which terms the holds demand; no interval comes from it. */
const termChoiceSchema = z.strictObject({
  candidates: z
    .array(
      z.strictObject({
        terms: z.array(lawTerm).readonly(),
        aicc: z.number(),
        delta: z.number(),
        akaikeWeight: z.number(),
      }),
    )
    .readonly(),
  demanded: z.array(lawTerm).readonly(),
});

const lackOfFitSchema = z.strictObject({
  againstScatter: z.strictObject({
    chiSquare: z.number(),
    degreesOfFreedom: z.number(),
    scatterDegreesOfFreedom: z.number().nullable(),
    probability: z.number(),
  }),
  againstRepeats: z
    .strictObject({
      fRatio: z.number(),
      lackDegreesOfFreedom: z.number(),
      repeatDegreesOfFreedom: z.number(),
      probability: z.number(),
    })
    .nullable(),
  isLacking: z.boolean().nullable(),
  text: z.string(),
});

export const slipLawSchema = z
  .strictObject({
    coefficients: byTerm(z.number()).meta({
      description: 'Fitted, slip coefficients not negative; a term that was left out is exactly zero.',
    }),
    uncertain: byTerm(uncertainSchema).meta({
      description: 'The same with the sensitivities of the full admissible model, from which every interval comes.',
    }),
    stated: byTerm(statedSchema),
    terms: z.array(lawTerm).readonly().meta({ description: 'Terms that took part in the full model.' }),
    termChoice: termChoiceSchema.meta({ description: 'Terms that the holds demand, by AICc.' }),
    lackOfFit: lackOfFitSchema,
    holdCount: z.int(),
    residualDegreesOfFreedom: z.number(),
    reducedChiSquare: z.number(),
    betweenHoldsM3PerS: z
      .number()
      .meta({ description: 'What the holds differ by from the law beyond the scatter of their readings.' }),
    range: z
      .strictObject({ speedRevPerS: spanSchema, differentialPressurePa: spanSchema, oilTemperatureK: spanSchema })
      .meta({ description: 'Of the holds; the law is not spoken outside without saying so.' }),
  })
  .meta({ id: 'SlipLaw', description: 'q1 = V_i n - C_l dp/mu - C_t sqrt(2 dp/rho) - C_np n dp.' });
export type SlipLaw = z.infer<typeof slipLawSchema>;

export const twoStepSchema = outcomeSchema(
  z.strictObject({
    derivedCapacityM3PerRev: statedSchema,
    differenceM3PerRev: statedSchema.meta({ description: "Less the slip law's; what both share has cancelled." }),
    levels: z
      .array(
        z.strictObject({
          differentialPressurePa: z.number(),
          slopeM3PerRev: statedSchema,
          holdNumbers: z.array(z.int()).readonly(),
        }),
      )
      .readonly(),
    unusedHoldNumbers: z.array(z.int()).readonly(),
  }),
).meta({
  description:
    'Derived capacity by two straight lines in the manner of ISO 8426: flow against speed, then to zero pressure.',
});

export const drainSchema = outcomeSchema(
  z.strictObject({
    drainCoefficientM3: statedSchema,
    uncertain: uncertainSchema,
    holdNumbers: z.array(z.int()).readonly(),
  }),
).meta({ description: 'External drain, q_drain = C_d dp/mu.' });

export const nextHoldSchema = z.strictObject({
  goal: z.enum(['derivedCapacity', 'flow']),
  speedRevPerS: z.number(),
  differentialPressurePa: z.number(),
  before: z.number().meta({ description: "Standard uncertainty of the goal now, in the goal's SI unit." }),
  after: z.number(),
  calibrationPart: z.number().meta({ description: 'The part that no further hold touches.' }),
  isWorthWhile: z.boolean(),
  text: z.string(),
});
