import { z } from 'zod';

/** What is stated on the day a pump is sealed, after its runs. Null or empty: not stated, which claims nothing. */
export const handover = z.strictObject({
  /** Time that the pump was run in on the bench, all runs together. */
  runInTimeS: z.number().nonnegative().nullable().default(null),
  /** What it was preserved with, and how its ports are closed. */
  preservative: z.string().max(300).default(''),
  /** Whether the very cover and gasket that it was tested with go into the machine: another gasket is another end float. */
  isSealedAsTested: z.boolean().nullable().default(null),
  remarks: z.string().max(600).default(''),
});
export type Handover = z.infer<typeof handover>;
