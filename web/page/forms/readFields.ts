import { type AskedQuantity, readTyped } from './askedQuantity.ts';
import { type FormState, quantityText } from './formState.ts';

/** Typed quantities in SI, and what is wrong with the others; both by field name. */
export type ReadFields = {
  readonly values: Readonly<Record<string, number>>;
  readonly errors: Readonly<Record<string, string>>;
};

/** Reads the quantities of a form; fields that may be empty and are stand in neither list. */
export function readFields(form: FormState, asked: readonly AskedQuantity[]): ReadFields {
  const values: Record<string, number> = {};
  const errors: Record<string, string> = {};
  for (const field of asked) {
    const read = readTyped(field, quantityText(form, field), form.system);
    if (!read.ok) errors[field.name] = read.reason;
    else if (read.value !== null) values[field.name] = read.value;
  }
  return { values, errors };
}
