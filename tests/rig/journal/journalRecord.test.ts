import fc from 'fast-check';
import { expect, it } from 'vitest';
import { formatJournalRecord, parseJournalRecord, wholeRecordsLength } from '../../../rig/journal/journalRecord.ts';
import type { ReceivedLine } from '../../../rig/serial/receivedLine.ts';

const anyBytes = fc
  .uint8Array({ maxLength: 60 })
  .map((bytes) => Array.from(bytes, (byte) => String.fromCharCode(byte)).join(''));
const anyLine: fc.Arbitrary<ReceivedLine> = fc.oneof(
  fc.record({
    monotonicUs: fc.maxSafeNat(),
    bytes: anyBytes,
    fault: fc.constantFrom(null, 'torn' as const, 'tooLong' as const),
  }),
  fc.record({ monotonicUs: fc.maxSafeNat(), bytes: fc.constant(''), fault: fc.constant('reconnected' as const) }),
);

it('writes a line as stamp, TAB and bytes, with control bytes, the backslash and all above 0x7E as \\xHH', () => {
  // Worked by hand from the grammar in the archive's layout.
  expect(formatJournalRecord({ monotonicUs: 12, bytes: '$1,2*AB', fault: null })).toBe('12\t$1,2*AB\n');
  expect(formatJournalRecord({ monotonicUs: 12, bytes: 'a\tb\\\x7f\xff\n', fault: 'torn' })).toBe(
    '12\ta\\x09b\\x5C\\x7F\\xFF\\x0A\ttorn\n',
  );
  expect(formatJournalRecord({ monotonicUs: 12, bytes: '', fault: 'reconnected' })).toBe('12\t\treconnected\n');
});

it('reads back every line that it wrote, whatever its bytes (seed 11)', () => {
  fc.assert(
    fc.property(anyLine, (line) => {
      const record = formatJournalRecord(line);
      expect(record).toMatch(/^[\t -~]*\n$/);
      expect(parseJournalRecord(record.slice(0, -1))).toEqual(line);
    }),
    { seed: 11, numRuns: 500 },
  );
});

it('takes nothing else for a record', () => {
  for (const text of [
    '',
    '12',
    'x\ty',
    '12\ta\tbroken',
    '12\ta\\x0',
    '12\ta\\q',
    '-1\ta',
    '01\ta',
    '12\ta\treconnected',
    '12\t\xe9',
  ]) {
    expect(parseJournalRecord(text), JSON.stringify(text)).toBeNull();
  }
});

it('a journal cut off anywhere is whole up to the last line end before the cut (seed 12)', () => {
  fc.assert(
    fc.property(
      fc.array(anyLine, { maxLength: 6 }),
      fc.nat(400),
      fc.constantFrom('', '\0\0\0\n12\ta\n'),
      (lines, cut, rest) => {
        const text = lines.map(formatJournalRecord).join('').slice(0, cut);
        const journal = Buffer.from(text + rest, 'latin1');
        expect(wholeRecordsLength(journal)).toBe(text.lastIndexOf('\n') + 1);
      },
    ),
    { seed: 12, numRuns: 300 },
  );
});
