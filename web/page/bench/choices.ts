import type { OilRecord } from '../../../analysis/records/oilRecord.ts';
import type { RunRecord, SetUp } from '../../../analysis/records/runRecord.ts';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';

/** A choice of the start form: what is recorded, and the words beside it. */
export type Choice<Value extends string> = { readonly value: Value; readonly words: string };

export const KIND_CHOICES: readonly Choice<RunRecord['kind']>[] = [
  { value: 'delivery', words: `${RUN_KIND_WORDS.delivery}: stepped through` },
  { value: 'dryLift', words: `${RUN_KIND_WORDS.dryLift}: started dry` },
  { value: 'blanked', words: `${RUN_KIND_WORDS.blanked}: suction shut at the flange` },
  { value: 'suction', words: `${RUN_KIND_WORDS.suction}: inlet throttled` },
  { value: 'relief', words: `${RUN_KIND_WORDS.relief}: up and down` },
];

export const LABEL_CHOICES: readonly Choice<RunRecord['label']>[] = [
  { value: 'as found', words: 'as found' },
  { value: 'as rebuilt', words: 'as rebuilt' },
  { value: 'run in', words: 'run in' },
  { value: 'after hours in service', words: 'after hours in service' },
];

export const WETNESS_CHOICES: readonly Choice<SetUp['wetness']>[] = [
  { value: 'W0', words: 'W0: solvent-washed, blown, dried' },
  { value: 'W1', words: 'W1: oiled at assembly, turned by hand' },
  { value: 'W2', words: 'W2: run, then drained a stated time' },
  { value: 'W3', words: 'W3: packed with grease' },
];

export const BASIS_CHOICES: readonly Choice<OilRecord['viscosityBasis']>[] = [
  { value: 'measured', words: 'measured on a sample' },
  { value: 'grade', words: 'from the grade on the can' },
];

/** The value that was chosen. */
export function chosen<Value extends string>(
  choices: readonly Choice<Value>[],
  typed: string,
  otherwise: Value,
): Value {
  return choices.find(({ value }) => value === typed)?.value ?? otherwise;
}

/** Choices as a form offers them. */
export function offered(choices: readonly Choice<string>[]): readonly (readonly [string, string])[] {
  return choices.map(({ value, words }) => [value, words]);
}
