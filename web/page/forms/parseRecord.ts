import { z } from 'zod';
import { no, type Outcome, yes } from '../../../analysis/outcome.ts';
import type { Tree } from './nested.ts';

// Schemas are read step by step here: compiling them would need eval, which this page forbids itself.
z.config({ jitless: true });

/** A record read by its schema, or by field path what is wrong with it. */
export function parseTree<Schema extends z.ZodType>(
  schema: Schema,
  tree: Tree,
): Outcome<z.output<Schema>, Readonly<Record<string, string>>> {
  const parsed = schema.safeParse(tree);
  if (parsed.success) return yes(parsed.data);
  return no(Object.fromEntries(parsed.error.issues.map(({ path, message }) => [path.join('.'), message])));
}
