import { readFileSync } from 'node:fs';
import type { z } from 'zod';
import { parseRecord, readJsonFile } from './recordFile.ts';

/** A member of the whole begins a line, indented by two; what lies within is indented deeper, and no string holds a line end. */
const MEMBER = '\n  "';
const KEY_END = '": ';
const FIRST = `{${MEMBER}`;
const LAST = '\n}\n';
/** A name with a quote in it ended before, and one with a backslash may be another's. */
const PLAIN_NAME = /^[ !#-[\]-\xff]*$/;
/** How a value of several lines begins and ends. */
const BLOCKS = [
  ['{\n    ', '\n  }'],
  ['[\n    ', '\n  ]'],
] as const;

/**
 * A value that is not wanted: on one line it is read all the same, so that nothing hides behind it; of a longer one the layout
 * is enough.
 *
 * @throws SyntaxError if it is not one value
 */
function passOver(value: string): void {
  if (!BLOCKS.some(([open, close]) => value.startsWith(open) && value.endsWith(close))) JSON.parse(value);
}

/**
 * The texts of some members; null where the record is laid out otherwise, lacks one, or has one twice.
 *
 * @throws SyntaxError if a member that is not wanted is laid out otherwise
 */
function memberTexts(text: string, wanted: ReadonlySet<string>): ReadonlyMap<string, string> | null {
  if (!text.startsWith(FIRST) || !text.endsWith(LAST)) return null;
  const found = new Map<string, string>();
  const end = text.length - LAST.length;
  for (let at = 1, next = 0; at !== end; at = next) {
    const following = text.indexOf(MEMBER, at + MEMBER.length);
    next = following === -1 ? end : following;
    const keyFrom = at + MEMBER.length;
    const keyTo = text.indexOf(KEY_END, keyFrom);
    const key = text.slice(keyFrom, keyTo);
    if (keyTo === -1 || keyTo > next || !PLAIN_NAME.test(key) || found.has(key)) return null;
    const hasComma = text.charCodeAt(next - 1) === 0x2c;
    if (hasComma === (next === end)) return null;
    const value = text.slice(keyTo + KEY_END.length, hasComma ? next - 1 : next);
    if (wanted.has(key)) found.set(key, value);
    else passOver(value);
  }
  return found.size === wanted.size ? found : null;
}

/** A member that was read byte by byte. */
function parseMember(text: string): unknown {
  const isAscii = !/[\x80-\xff]/.test(text);
  return JSON.parse(isAscii ? text : Buffer.from(text, 'latin1').toString('utf8'));
}

/**
 * Parses some members of a large record and nothing of the others, where it is laid out as `recordText` and
 * `certificateText` lay it out. Its bytes are taken one by one: JSON's own characters are single ones, and UTF-8 has none of
 * them within a longer one. Only a member of several lines that is not wanted could be malformed, or closed and opened
 * again within, and not be noticed: harmless in what is signed, since none but the signer can lay it out like that.
 *
 * @param schema - the members that are wanted, in any order [-]
 * @param bytes - JSON in UTF-8 [-]
 * @returns null where it is laid out otherwise, or these members do not fit [-]
 */
export function parseMembers<Shape extends z.ZodRawShape>(
  schema: z.ZodObject<Shape>,
  bytes: Buffer,
): z.output<z.ZodObject<Shape>> | null {
  try {
    const texts = memberTexts(bytes.toString('latin1'), new Set(Object.keys(schema.shape)));
    if (texts === null) return null;
    const members = [...texts].map(([key, text]) => [key, parseMember(text)] as const);
    return schema.safeParse(Object.fromEntries(members)).data ?? null;
  } catch {
    return null;
  }
}

/**
 * Reads some members of a large record; a file that is laid out otherwise than the program does it is read as a whole.
 *
 * @param schema - the members that are wanted, in any order [-]
 * @param path - the file [-]
 * @throws RecordError naming the file, and the members if those are at fault
 */
export function readMembers<Shape extends z.ZodRawShape>(
  schema: z.ZodObject<Shape>,
  path: string,
): z.output<z.ZodObject<Shape>> {
  return parseMembers(schema, readFileSync(path)) ?? parseRecord(schema, readJsonFile(path), path);
}
