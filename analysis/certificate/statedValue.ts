import { z } from 'zod';

/** A value with standard and expanded uncertainty (95 %), in the unit its key names. */
export const statedValue = z.strictObject({
  value: z.number(),
  standardUncertainty: z.number().nonnegative(),
  coverageFactor: z.number().nonnegative(),
  expandedUncertainty: z.number().nonnegative(),
  /** Null: every source is taken as known. */
  degreesOfFreedom: z.number().positive().nullable(),
});
export type StatedValue = z.infer<typeof statedValue>;

/** The same with where the uncertainty comes from, largest first. */
export const budgetedValue = statedValue.extend({
  budget: z.array(z.strictObject({ label: z.string(), kind: z.enum(['random', 'calibration']), share: z.number() })),
});
export type BudgetedValue = z.infer<typeof budgetedValue>;
