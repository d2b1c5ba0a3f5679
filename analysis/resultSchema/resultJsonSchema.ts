import { z } from 'zod';
import { runResultSchema } from './runResultSchema.ts';

/**
 * The published JSON Schema (draft 2020-12) of `slipwright analyse RUN --json` and of result.json.
 *
 * @returns the schema as plain JSON [-]
 */
export function resultJsonSchema(): Record<string, unknown> {
  return {
    $id: 'slipwright.result/2',
    ...z.toJSONSchema(runResultSchema, {
      target: 'draft-2020-12',
      io: 'output',
      override: ({ jsonSchema }) => {
        // A frozen list in the program is a plain list in the document.
        delete jsonSchema.readOnly;
      },
    }),
  };
}
