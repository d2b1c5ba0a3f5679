import fc from 'fast-check';
import { expect, it } from 'vitest';
import { scanRows } from '../../../rig/decode/scanRows.ts';

const ROOM = 100;

function scan(text: string, columnCount: number, lineEnd: '\n' | '\r\n' = '\n') {
  const bytes = Buffer.from(text, 'latin1');
  const cells = new Float64Array(ROOM * columnCount);
  const scanned = scanRows(bytes, 0, bytes.length, columnCount, lineEnd, cells);
  return { ...scanned, numbers: [...cells.subarray(0, scanned.rowCount * columnCount)] };
}

/** Numbers as instruments write them, long and short, and as no instrument does. */
const decimal = fc.oneof(
  fc.tuple(fc.integer({ min: -99_999, max: 99_999 }), fc.nat(6)).map(([whole, places]) => (whole / 7).toFixed(places)),
  fc.tuple(fc.constantFrom('', '-', '+'), fc.nat(999), fc.nat(99_999)).map(([sign, a, b]) => `${sign}${a}.${b}`),
  fc.double({ noNaN: true, noDefaultInfinity: true }).map(String),
  fc.constantFrom('.5', '5.', '-0', '0.10', '123456789', '1234567890', '0.000000001', ' 7 ', '1e-3'),
);

it('gives the numbers that Number() gives, bit for bit, whatever the line end (seed 4)', () => {
  fc.assert(
    fc.property(fc.array(fc.array(decimal, { minLength: 3, maxLength: 3 }), { maxLength: ROOM }), (rows) => {
      const expected = rows.flat().map(Number); // the language's own reading: ECMA-262, StringToNumber
      for (const lineEnd of ['\n', '\r\n'] as const) {
        const text = rows.map((row) => row.join(',') + lineEnd).join('');
        expect(scan(text, 3, lineEnd)).toEqual({
          position: text.length,
          rowCount: rows.length,
          isRegular: true,
          numbers: expected,
        });
      }
    }),
    { seed: 4, numRuns: 300 },
  );
});

it('takes an empty cell for a missing number', () => {
  expect(scan(',1\n2,\n', 2).numbers).toEqual([Number.NaN, 1, 2, Number.NaN]);
});

it('stops before the first row that is no plain one, and says so', () => {
  for (const odd of ['x,1', '1', '1,2,3', '"1",2', '1,0x10', '1,2\r', '1e999,2', '1..2,3', '--1,2', '', '1,Infinity']) {
    // Two good rows of four bytes each stand before it.
    expect(scan(`1,2\n3,4\n${odd}\n5,6\n`, 2), odd).toEqual({
      position: 8,
      rowCount: 2,
      isRegular: false,
      numbers: [1, 2, 3, 4],
    });
  }
});

it('stops where a line of another end than the others stands', () => {
  expect(scan('1,2\r\n3,4\n5,6\r\n', 2, '\r\n')).toMatchObject({ position: 5, rowCount: 1, isRegular: false });
});

it('reads as many whole rows as find room', () => {
  const text = '1,2\n'.repeat(ROOM + 1);
  expect(scan(text, 2)).toMatchObject({ position: 4 * ROOM, rowCount: ROOM, isRegular: true });
});
