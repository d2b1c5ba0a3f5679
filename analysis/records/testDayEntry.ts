import { z } from 'zod';
import { utcInstant } from './fields.ts';

/** Steps of a test day, in the order that does not spoil what comes after. */
export const testDayStepId = z.enum([
  'handTurn',
  'vacuumHold',
  'zero',
  'blanked',
  'dryStart',
  'flood',
  'runIn',
  'soak',
  'delivery',
  'relief',
  'suction',
  'drainedStarts',
  'after',
]);
export type TestDayStepId = z.infer<typeof testDayStepId>;

/** A line of a pump's test days: a day begun, a step done, skipped with a reason, or taken back. Added, never rewritten. */
export const testDayEntry = z
  .strictObject({
    atUtc: utcInstant,
    person: z.string().min(1).max(100),
    /** Null where a day is begun. */
    step: testDayStepId.nullable(),
    did: z.enum(['begun', 'done', 'skipped', 'undone']),
    /** What was found, or why it was skipped. */
    note: z.string().max(500),
  })
  .refine(
    ({ step, did }) => (step === null) === (did === 'begun'),
    'a day is begun without a step, and nothing else is',
  )
  .refine(({ did, note }) => did !== 'skipped' || note !== '', {
    path: ['note'],
    message: 'a skipped step has a reason',
  });
export type TestDayEntry = z.infer<typeof testDayEntry>;
