import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { parseRecord, readJsonFile } from './recordFile.ts';

/**
 * Reads some members of a large record that `recordText` wrote: there a member of the whole begins a line, indented by two,
 * and what lies within is indented deeper. A file laid out otherwise is read as a whole.
 *
 * @param schema - the members that are wanted, in any order [-]
 * @param path - the file [-]
 * @throws RecordError naming the file, and the members if those are at fault
 */
export function readMembers<Shape extends z.ZodRawShape>(
  schema: z.ZodObject<Shape>,
  path: string,
): z.output<z.ZodObject<Shape>> {
  const keys = Object.keys(schema.shape);
  const text = readFileSync(path, 'utf8');
  const members = keys.map((key) => memberOf(text, key));
  if (members.every((member) => member !== null)) {
    const parsed = schema.safeParse(Object.fromEntries(keys.map((key, index) => [key, parseOrNull(members[index])])));
    if (parsed.success) return parsed.data;
  }
  return parseRecord(schema, readJsonFile(path), path);
}

function memberOf(text: string, key: string): string | null {
  const name = `\n  ${JSON.stringify(key)}: `;
  const at = text.indexOf(name);
  if (at === -1) return null;
  const start = at + name.length;
  const next = /\n {2}"|\n\}\n/g;
  next.lastIndex = start;
  const end = next.exec(text)?.index;
  return end === undefined ? null : text.slice(start, end).replace(/,$/, '');
}

function parseOrNull(member: string | null | undefined): unknown {
  try {
    return JSON.parse(member ?? '');
  } catch {
    return undefined;
  }
}
