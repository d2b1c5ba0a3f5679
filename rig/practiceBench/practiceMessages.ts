import { z } from 'zod';
import { practiceTruth } from './practiceTruth.ts';

/** What the practice bench's process says to the one that started it. */
export const practiceMessage = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('ready'), path: z.string().min(1) }),
  z.strictObject({ kind: z.literal('noPty'), why: z.string() }),
  z.strictObject({ kind: z.literal('truth'), truth: practiceTruth }),
]);
export type PracticeMessage = z.infer<typeof practiceMessage>;

/** What it is asked. */
export const practiceRequest = z.strictObject({ kind: z.literal('truth') });
export type PracticeRequest = z.infer<typeof practiceRequest>;
