import { z } from 'zod';

/** Parts that several records share. All numbers are SI; zod refuses NaN and Infinity. */

/** Ids name folders and files: lower case, digits and hyphens. */
export const recordId = z
  .string()
  .regex(/^[a-z0-9][a-z0-9-]{0,63}$/, 'lower case letters, digits and hyphens, 64 at most');
export const utcInstant = z.iso.datetime();
export const calendarDate = z.iso.date();
export const sha256Hex = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in lower-case hexadecimal');

const standardUncertainty = z.number().nonnegative();

/** A measured quantity above zero with its standard uncertainty, both in the unit its key names. */
export const measuredPositive = z.strictObject({ value: z.number().positive(), standardUncertainty });

/** A measured quantity that may be zero (a clearance, an end float), with its standard uncertainty. */
export const measuredNonNegative = z.strictObject({ value: z.number().nonnegative(), standardUncertainty });

export type Measured = z.infer<typeof measuredNonNegative>;

/** How a pump was prepared before a dry start; each class is a procedure, described in the README. */
export const wetnessClass = z.enum(['W0', 'W1', 'W2', 'W3']);
export type WetnessClass = z.infer<typeof wetnessClass>;

/** Says in one line each what a record lacks: 'geometry.faceWidthM.value: expected …'. */
export function describeIssues(error: z.ZodError): string {
  return error.issues.map((issue) => `${issue.path.join('.') || '(whole record)'}: ${issue.message}`).join('; ');
}
