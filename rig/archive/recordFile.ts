import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { describeIssues } from '../../analysis/records/fields.ts';
import { messageOf } from '../errors.ts';
import { RecordError } from './archiveErrors.ts';

/**
 * Reads a value as a record.
 *
 * @param schema - what is expected [-]
 * @param value - anything [-]
 * @param source - the file it came from, for the message [-]
 * @throws RecordError naming the source, and each field with what was expected of it
 */
export function parseRecord<Schema extends z.ZodType>(
  schema: Schema,
  value: unknown,
  source: string,
): z.output<Schema> {
  const parsed = schema.safeParse(value);
  if (!parsed.success) throw new RecordError(source, describeIssues(parsed.error), { cause: parsed.error });
  return parsed.data;
}

/** Reads a JSON file as a record. @throws RecordError naming the file, and the fields if those are at fault */
export function readRecordFile<Schema extends z.ZodType>(schema: Schema, path: string): z.output<Schema> {
  return parseRecord(schema, readJsonFile(path), path);
}

/** How every record is written: JSON, indented by two, with a final line end. */
export function recordText(record: object): string {
  return `${JSON.stringify(record, null, 2)}\n`;
}

/** @throws RecordError if the file cannot be read or is no JSON */
export function readJsonFile(path: string): unknown {
  try {
    return JSON.parse(readFileSync(path, 'utf8'));
  } catch (cause) {
    throw new RecordError(path, `expected a JSON document (${messageOf(cause)})`, { cause });
  }
}
