import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { messageOf } from '../errors.ts';
import { RecordError } from './archiveErrors.ts';
import { parseRecord } from './recordFile.ts';

/**
 * Reads a file of records, one JSON document a line.
 *
 * @param schema - what each is expected to be [-]
 * @param path - the file [-]
 * @throws RecordError naming the file, the line and the fields that are wrong, or a last line that was cut off
 */
export function readJsonLines<Schema extends z.ZodType>(schema: Schema, path: string): readonly z.output<Schema>[] {
  const lines = readFileSync(path, 'utf8').split('\n');
  const torn = lines.pop(); // behind the last line end
  if (torn !== undefined && torn !== '') {
    throw new RecordError(
      `${path}, line ${lines.length + 1}`,
      `it was cut off: ${JSON.stringify(torn)} has no line end`,
    );
  }
  return lines.map((line, index) => {
    const source = `${path}, line ${index + 1}`;
    try {
      return parseRecord(schema, JSON.parse(line), source);
    } catch (cause) {
      throw cause instanceof RecordError ? cause : new RecordError(source, messageOf(cause), { cause });
    }
  });
}
