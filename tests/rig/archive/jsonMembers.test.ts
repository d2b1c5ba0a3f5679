import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { parseMembers } from '../../../rig/archive/jsonMembers.ts';
import { recordText } from '../../../rig/archive/recordFile.ts';

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
