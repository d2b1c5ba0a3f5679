import { z } from 'zod';
import { NO_PRIMING_CAUSES, type NoPrimingCause } from '../dryLift/diagnosis/causes.ts';
import { statedSchema } from './statedSchema.ts';

const CAUSES = Object.keys(NO_PRIMING_CAUSES).filter((key): key is NoPrimingCause => key in NO_PRIMING_CAUSES);
const causeCode = z.enum(CAUSES);

const causeSchema = z.discriminatedUnion('told', [
  z.strictObject({
    told: z.literal(true),
    code: causeCode,
    text: z.string().meta({ description: 'What is wrong, and where to look.' }),
    sign: z.string().meta({ description: 'What was read, with its numbers.' }),
  }),
  z.strictObject({
    told: z.literal(false),
    code: z.enum(['WATCH_LONGER', 'HOLD_TEST_NEEDED', 'LEAKS_ALIKE', 'NO_SUCTION_CHANNEL', 'OIL_STANDS_AT_PUMP']),
    text: z.string().meta({ description: 'What to do to know more.' }),
    sign: z.string(),
    candidates: z.array(causeCode).readonly(),
  }),
]);

const held = {
  drawnPa: z.number().meta({ description: 'Suction when the valve was shut, below what the channel shows at rest.' }),
  settledPa: z.number().meta({ description: 'A second later: what friction there was is gone.' }),
  leftPa: z.number(),
  heldForS: z.number(),
  halfLostS: z.number().nullable(),
};

const pipeHoldSchema = z.discriminatedUnion('verdict', [
  z.strictObject({ verdict: z.literal('holds'), ...held }),
  z.strictObject({ verdict: z.literal('leaks'), ...held }),
  z.strictObject({ verdict: z.literal('cannot tell'), text: z.string() }),
]);

/** What a start that did not prime says. */
export const diagnosisSchema = z.strictObject({
  timedOutAfterS: z.number(),
  ultimateSuctionPa: statedSchema
    .nullable()
    .meta({ description: 'Suction it came to, below what the channel shows at rest; null: no suction channel.' }),
  liftCarriedM: statedSchema.nullable().meta({ description: 'Column of this oil that it carries.' }),
  cause: causeSchema.meta({ description: 'The most likely cause, or between which it cannot be told.' }),
  hold: pipeHoldSchema.nullable().meta({ description: 'Suction pipe by itself; null: not held.' }),
});
export type DiagnosisResult = z.infer<typeof diagnosisSchema>;
