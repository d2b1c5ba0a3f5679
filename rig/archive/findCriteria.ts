import { z } from 'zod';
import { calendarDate, recordId } from '../../analysis/records/fields.ts';
import { pumpRecord } from '../../analysis/records/pumpRecord.ts';
import { type FoundEntry, outcomeWord } from './indexEntries.ts';

/** Entries on a page at most. */
const MOST_ON_A_PAGE = 200;

const someWords = z.string().trim().min(1).max(200);

/** What is looked for: all that is given must hold. */
export const findCriteria = z.strictObject({
  /** Each word begins a word of the record, the serial number or the machine; capitals and accents do not count. */
  words: someWords.optional(),
  /** From its beginning. */
  serialNumber: someWords.optional(),
  /** Words of the machine that the pump belongs to. */
  machine: someWords.optional(),
  what: z.enum(['pump', 'run', 'certificate']).optional(),
  pumpId: recordId.optional(),
  type: pumpRecord.shape.type.optional(),
  outcome: outcomeWord.optional(),
  /** Days, both included: when a run began or a certificate was issued. A pump has no day and is left out then. */
  from: calendarDate.optional(),
  to: calendarDate.optional(),
  /** Counted from 1. */
  page: z.int().min(1).default(1),
  pageSize: z.int().min(1).max(MOST_ON_A_PAGE).default(50),
});
export type FindCriteria = z.infer<typeof findCriteria>;

type Paging = 'page' | 'pageSize';

/** A page of what was found: pumps first, by name, then runs and certificates, the newest first. */
export type FoundPage = {
  readonly total: number;
  readonly page: number;
  readonly pageSize: number;
  readonly found: readonly FoundEntry[];
};

const TAGGED = ['what', 'pumpId', 'type', 'outcome'] as const;
type Tagged = (typeof TAGGED)[number];

/** A word of the index that stands for a property: letters and digits alone, so that it is one word whatever the value is. */
export function tag(property: Tagged, value: string): string {
  return `${property}${Buffer.from(value).toString('hex')}`;
}

/** As the index takes text apart: letters and digits make words, everything else divides them. */
function wordsIn(text: string): readonly string[] {
  return text.normalize('NFC').match(/[\p{L}\p{N}]+/gu) ?? [];
}

/** What is found nowhere: somebody typed a lone hyphen. */
const NOTHING = 'tags : nothing';

/** Every word begins one in the columns, in whatever order. */
function allBegin(columns: string, text: string): string {
  const words = wordsIn(text).map((word) => `"${word}"*`);
  return words.length === 0 ? NOTHING : `${columns} : (${words.join(' AND ')})`;
}

/** The words stand at the beginning of the column, one behind the other. */
function columnBegins(column: string, text: string): string {
  const words = wordsIn(text);
  return words.length === 0 ? NOTHING : `${column} : ^"${words.join(' ')}"*`;
}

/**
 * The criteria in the words of the full-text index.
 *
 * @returns what to match, or null where everything does [-]
 */
export function matchOf({ words, serialNumber, machine, ...criteria }: Omit<FindCriteria, Paging>): string | null {
  const parts = TAGGED.flatMap((property) => {
    const value = criteria[property];
    return value === undefined ? [] : [`tags : ${tag(property, value)}`];
  });
  if (words !== undefined) parts.push(allBegin('{serialNumber machine text}', words));
  if (serialNumber !== undefined) parts.push(columnBegins('serialNumber', serialNumber));
  if (machine !== undefined) parts.push(allBegin('machine', machine));
  return parts.length === 0 ? null : parts.join(' AND ');
}
