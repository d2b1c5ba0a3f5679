import { z } from 'zod';
import type { Source, SourceTable, Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';

const errorKind = z.enum(['random', 'calibration']);

/** Shares are sums of squares over one another: the last digits may take the largest above one [1]. */
const MOST_SHARE = 1 + 1e-9;

/** A value with standard and expanded uncertainty and its budget; its unit stands in the key that names it. */
export const statedSchema: z.ZodType<Stated> = z
  .strictObject({
    value: z.number(),
    standardUncertainty: z.number().nonnegative(),
    degreesOfFreedom: z.number().positive().nullable(),
    coverageFactor: z.number().positive(),
    expandedUncertainty: z.number().nonnegative(),
    budget: z
      .array(
        z.strictObject({
          sourceId: z.string(),
          label: z.string(),
          kind: errorKind,
          contribution: z.number().nonnegative(),
          share: z.number().min(0).max(MOST_SHARE),
        }),
      )
      .readonly(),
  })
  .meta({
    id: 'Stated',
    description:
      'A value in SI, its unit in the name of its key, with standard and expanded uncertainty (95 %, k from Student t; degreesOfFreedom null: every source taken as known) and its budget, largest contribution first.',
  });

/** A value with ∂value/∂source for every source in `sources`. */
export const uncertainSchema: z.ZodType<Uncertain> = z
  .strictObject({ value: z.number(), sensitivities: z.record(z.string(), z.number()) })
  .meta({
    id: 'Uncertain',
    description: 'A value in SI, its unit in the name of its key, and its partial derivatives by source id.',
  });

const sourceSchema: z.ZodType<Source> = z.strictObject({
  id: z.string(),
  label: z.string(),
  kind: errorKind,
  standardUncertainty: z.number().nonnegative(),
  degreesOfFreedom: z.number().positive().nullable(),
  shape: z.enum(['normal', 'rectangular']),
  pooledAs: z.string().nullable(),
});

export const sourceTableSchema: z.ZodType<SourceTable> = z
  .record(z.string(), sourceSchema)
  .meta({ id: 'Sources', description: 'Every source of error that a value is sensitive to, by its id.' });

/** A reasoned "no". */
export const refusalSchema = z
  .strictObject({ code: z.string(), text: z.string() })
  .meta({ id: 'Refusal', description: 'Why there is no value: a stable code, and what to do, in words.' });
export type RefusalResult = z.infer<typeof refusalSchema>;

/** A value, or the reason that there is none. */
export function outcomeSchema<Value extends z.ZodType>(value: Value) {
  return z.discriminatedUnion('ok', [
    z.strictObject({ ok: z.literal(true), value }),
    z.strictObject({ ok: z.literal(false), reason: refusalSchema }),
  ]);
}

/** Lowest and highest. */
export const spanSchema = z.tuple([z.number(), z.number()]).readonly();

/** Two values of one thing held against each other. */
export const agreementSchema = z
  .strictObject({
    measured: statedSchema,
    expected: statedSchema,
    difference: statedSchema,
    ratio: statedSchema.nullable(),
    agrees: z.boolean(),
  })
  .meta({
    id: 'Agreement',
    description:
      'Measured, expected, measured less expected and measured over expected (null where zero is expected); agrees: the difference is no larger than its own expanded uncertainty.',
  });
