import { expect, it } from 'vitest';
import { CsvDecoder } from '../../../rig/decode/csvDecoder.ts';
import { importCsv } from '../../../rig/decode/importCsv.ts';

const ROWS = 5000;
const HEADINGS = 'elapsed [s],speed [rev/s],flow [m3/s]';

/** Row by row: time, speed 1 to 100, flow in thousandths. */
function rowOf(row: number): string {
  return `${row / 1000},${1 + (row % 100)},${(row % 7) / 1000}`;
}

function csv(rowCount: number, change: (row: number, text: string) => string = (_, text) => text): Buffer {
  const rows = Array.from({ length: rowCount }, (_, row) => change(row, rowOf(row)));
  return Buffer.from(`${HEADINGS}\n${rows.join('\n')}\n`);
}

function expectPlanted(bytes: Buffer, rowCount: number): void {
  const { elapsedS, channels } = importCsv(bytes, null, 100_000);
  expect(elapsedS).toHaveLength(rowCount);
  for (let row = 0; row < rowCount; row += 1) {
    // What was written, read back: the time less that of the first row, which is 0.
    if (elapsedS[row] !== row / 1000) expect(elapsedS[row]).toBe(row / 1000);
    if (channels.speed?.values[row] !== 1 + (row % 100)) expect(channels.speed?.values[row]).toBe(1 + (row % 100));
    if (channels.flow?.values[row] !== (row % 7) / 1000) expect(channels.flow?.values[row]).toBe((row % 7) / 1000);
  }
  expect(channels.flow?.quality.every((quality) => quality === 0)).toBe(true);
}

it('reads a file of many rows as it was written', () => {
  expectPlanted(csv(ROWS), ROWS);
});

it('reads on behind a row in quotes as before it', () => {
  const bytes = csv(ROWS, (row, text) => (row === 3210 ? text.replace(/,(\d+),/, ',"$1",') : text));
  expect(bytes.includes('"')).toBe(true);
  expectPlanted(bytes, ROWS);
});

it('reads a last row without a line end', () => {
  const bytes = csv(ROWS);
  expectPlanted(bytes.subarray(0, bytes.length - 1), ROWS);
});

it('names the line of a fault far down', () => {
  // Row 3210 counted from 0 stands in line 3212: the headings are line 1.
  const spoilt = (text: string): Buffer => csv(ROWS, (row, was) => (row === 3210 ? text : was));
  const refusal = (text: string) => () => importCsv(spoilt(text), null, 100_000);
  const csvError = (message: RegExp) =>
    expect.objectContaining({ code: 'CSV', message: expect.stringMatching(message) });
  expect(refusal('3.21,abc,0')).toThrowError(csvError(/line 3212, speed \[rev\/s\].*"abc"/));
  expect(refusal('3.21,1')).toThrowError(csvError(/line 3212/));
  expect(refusal('3.208,1,0')).toThrowError(csvError(/line 3212, elapsed \[s\]: 3\.208 s stands behind 3\.209 s/));
});

it('reads the same however the file is cut into blocks: inside a number, a line end, the headings, a row in quotes', () => {
  const quoted = csv(60, (row, text) => (row === 40 ? text.replace(/,(\d+),/, ',"$1",') : text));
  const lines = Buffer.from(csv(60).toString('utf8').replaceAll('\n', '\r\n'));
  for (const bytes of [csv(60), quoted, lines, csv(60).subarray(0, -1)]) {
    const whole = importCsv(bytes, null, 100_000);
    for (const blockBytes of [1, 2, 3, 7, 16, 64, 333]) {
      const decoder = new CsvDecoder(bytes.length, { bench: null, barometerPa: 100_000, zeroCheck: null });
      for (let at = 0; at < bytes.length; at += blockBytes) decoder.push(bytes.subarray(at, at + blockBytes));
      expect(decoder.finish(), `blocks of ${blockBytes}`).toEqual(whole);
    }
  }
});

it('finds room for rows that become shorter than the first ones', () => {
  const long = Array.from({ length: 3000 }, (_, row) => `${row},1.${'0'.repeat(50)},2.${'0'.repeat(50)}`);
  const short = Array.from({ length: 20_000 }, (_, row) => `${3000 + row},1,2`);
  const { elapsedS, channels } = importCsv(
    Buffer.from(`${HEADINGS}\n${[...long, ...short].join('\n')}\n`),
    null,
    100_000,
  );
  expect(elapsedS).toHaveLength(23_000);
  expect(elapsedS.every((time, row) => time === row)).toBe(true);
  expect(channels.speed?.values.every((speed) => speed === 1)).toBe(true);
  expect(channels.flow?.quality.every((quality) => quality === 0)).toBe(true);
});
