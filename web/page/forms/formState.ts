import type { UnitSystem } from '../../../analysis/preferredUnit.ts';
import { type AskedQuantity, typedText } from './askedQuantity.ts';

/** What was typed into a form and not sent yet: it outlives a reload, and what was thrown away can be had back. */
export type Draft = {
  /** What was typed into a field; null where nobody has touched it. */
  readonly text: (name: string) => string | null;
  readonly set: (name: string, text: string) => void;
  readonly isEmpty: () => boolean;
  /** Forgets all that was typed. */
  readonly clear: () => void;
  /** Brings back what was forgotten last; null where there is nothing. */
  readonly undo: () => (() => void) | null;
};

/** What a form knows of its fields: what was typed, what stood there before, and what the server refused. */
export type FormState = {
  readonly draft: Draft;
  /** In which units a bare number is taken. */
  readonly system: UnitSystem;
  /** SI values and texts that stand in fields that nobody has touched. */
  readonly before: (name: string) => number | string | null;
  /** By field, what was refused. */
  readonly refused: Readonly<Record<string, string>>;
  /** Whether empty fields are to be named: only after a first try to send. */
  readonly wasTried: boolean;
};

/** The text that stands in a field of a quantity. */
export function quantityText(form: FormState, asked: AskedQuantity): string {
  const typed = form.draft.text(asked.name);
  if (typed !== null) return typed;
  const before = form.before(asked.name);
  if (typeof before === 'number') return typedText(asked, before, form.system);
  return before ?? asked.usual ?? '';
}

/** The text that stands in a field of words, a choice, or a tick. */
export function plainText(form: FormState, name: string, usual = ''): string {
  return form.draft.text(name) ?? form.before(name)?.toString() ?? usual;
}
