import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { parseMembers } from '../../../rig/archive/jsonMembers.ts';
import { recordText } from '../../../rig/archive/recordFile.ts';
import { uniform } from '../../support/random.ts';

const wanted = z.object({ number: z.int(), name: z.string(), nested: z.object({ number: z.int() }) });
const record = { name: 'Mühle · Δp − 1', nested: { number: 2, rest: [1, 2] }, number: 7, more: { name: 'x' } };

function parse(text: string): unknown {
  return parseMembers(wanted, Buffer.from(text));
}

describe('some members of a record', () => {
  it('are those of the whole, not of what lies within it, in whatever order they stand', () => {
    expect(parse(recordText(record))).toEqual({ number: 7, name: 'Mühle · Δp − 1', nested: { number: 2 } });
  });

  it('are told by no string that looks like a member: a line end in a string is written with a backslash', () => {
    expect(parse(recordText({ remarks: '\n  "number": 9,\n  "name": "other",\n', ...record }))).toMatchObject({
      number: 7,
    });
  });

  it.each([
    ['on one line', JSON.stringify(record)],
    ['with something before it', ` ${recordText(record)}`],
    ['with something behind it', `${recordText(record)} `],
    ['with a member twice', recordText(record).replace('{\n', '{\n  "number": 8,\n')],
    ['without one of them', recordText({ ...record, number: undefined })],
    ['with two of them on a line', recordText(record).replace('"number": 7,', '"other": 1, "number": 7,')],
    ['with a member that ends too soon', recordText(record).replace('"number": 7,', '"number": 7')],
    ['with a member that does not fit', recordText({ ...record, number: 'seven' })],
    ['that is cut short', recordText(record).slice(0, 60)],
  ])('are not looked for in a record %s', (_what, text) => {
    expect(parse(text)).toBeNull();
  });
});

/** As JSON itself reads it; null where it is none, or these members do not fit. */
function parseWhole(text: string): unknown {
  try {
    return wanted.safeParse(JSON.parse(Buffer.from(text).toString('utf8'))).data ?? null;
  } catch {
    return null;
  }
}

const PLAIN = recordText({ other: 1, ...record, last: 'x' });

describe('members of a record that is made to be read in two ways', () => {
  it.each([
    ['a name twice, the second with a space before its colon', PLAIN.replace('"last": "x"', '"number" : 8')],
    ['the same before a value that has members itself', PLAIN.replace('"last": "x"', '"number" : {"a": 1}')],
    ['a name twice, the second without a space behind it', PLAIN.replace('"last": "x"', '"number":8')],
    ['a name twice, the second with an escape', PLAIN.replace('"last"', String.raw`"n\u0075mber"`)],
    ['a name twice, the second behind another member', PLAIN.replace('"last": "x"', '"last": "x", "number": 8')],
    ['the same behind a list on one line', PLAIN.replace('"last": "x"', '"last": [1], "number": 8, "z": [2]')],
    ['a name twice, the second indented otherwise', PLAIN.replace('  "last": "x"', '   "number": 8')],
    ['a name that holds a quote and a colon', PLAIN.replace('"last"', String.raw`"number\": "`)],
    ['a member that lies within another, not indented', PLAIN.replace('"other": 1', '"other": {\n  "a": 1},"b": 2')],
    [
      'a wanted one within another, indented as if it were of the whole',
      PLAIN.replace('  "number": 7,\n', '').replace('"other": 1', '"other": {\n  "number": 9,\n  "x": 1\n  }'),
    ],
    [
      'the same, and the true one on a line with others',
      PLAIN.replace('"number": 7', '"y": 1,"number": 7').replace('"other": 1', '"other": {\n  "number": 9,\n  "x": 1}'),
    ],
    ['a wanted name within a list, which is no JSON', PLAIN.replace('"other": 1', '"other": [\n  "z": 1]')],
    ['a comma too few behind a member that is not wanted', PLAIN.replace('"other": 1,', '"other": 1')],
    ['a comma too many at the end', PLAIN.replace('"last": "x"', '"last": "x",')],
    ['a member that is not wanted and no JSON', PLAIN.replace('"last": "x"', '"last": x')],
    ['a mark of byte order', `\uFEFF${PLAIN}`],
    ['line ends of two characters', PLAIN.replaceAll('\n', '\r\n')],
    ['tabs', PLAIN.replaceAll('  ', '\t')],
    ['a second record behind the first', PLAIN + PLAIN],
    ['a line end within a string', PLAIN.replace('"last": "x"', '"last": "\n  \\"number\\": 8,"')],
    ['a name that every object has', PLAIN.replace('"last": "x"', '"__proto__": { "number": 8 }')],
  ])('are those that JSON itself reads, or are not picked out: %s', (_what, text) => {
    expect(text).not.toBe(PLAIN);
    const picked = parse(text);
    if (picked !== null) expect(picked).toEqual(parseWhole(text));
  });

  it('are picked out though a longer member that is not wanted is no JSON: it is passed over unread', () => {
    expect(parse(PLAIN.replace('"name": "x"', '"name": x'))).toMatchObject({ number: 7 });
  });

  const SEED = 20261126;
  const unwantedBlock = /\n {2}"(?!nested")[^"\\\n]*": \{\n {4}[\s\S]*?\n {2}\}(?=,?\n(?: {2}"|\}))/g;
  it(`are those that JSON itself reads wherever pieces of JSON are put into it and taken out (seed ${SEED})`, () => {
    const random = uniform(SEED);
    const below = (count: number): number => Math.floor(random() * count);
    const pieces = [
      '\n',
      '  ',
      '\n  "',
      '"',
      ',',
      ',\n',
      ': ',
      '{',
      '}',
      '[',
      ']',
      '\\',
      '7',
      'ü',
      '"number": 8',
      '"name"',
    ];
    const lines = [
      '\n  "number": 8,',
      '\n  "other": 2,',
      '\n  "n\\u0061me": "y",',
      '\n  "nested": { "number": 3 },',
      ' "number": 9,',
    ];
    let readAsJson = 0;
    let picked = 0;
    for (let round = 0; round < 20_000; round++) {
      let text = PLAIN;
      for (let change = below(3); change >= 0; change--) {
        const isLine = random() < 0.5;
        const from = isLine ? text.indexOf('\n', below(text.length)) : below(text.length);
        const at = from === -1 ? text.length : from;
        const set = isLine ? lines : pieces;
        text = text.slice(0, at) + (set[below(set.length)] ?? '') + text.slice(at + (random() < 0.3 ? below(12) : 0));
      }
      const byJson = parseWhole(text);
      const byPicking = parse(text);
      if (byJson !== null) readAsJson += 1;
      if (byPicking === null) continue;
      picked += 1;
      // What was put into a member of several lines that is not wanted is not looked at.
      const isMalformedWithin = byJson === null && parseWhole(text.replace(unwantedBlock, '\n  "z": 1')) !== null;
      if (!isMalformedWithin) expect(byPicking, text).toEqual(byJson);
    }
    // Enough of them are still JSON, and some still laid out as records are, for this to say anything.
    expect(readAsJson).toBeGreaterThan(2000);
    expect(picked).toBeGreaterThan(500);
  });
});
