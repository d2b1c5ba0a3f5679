import fc from 'fast-check';
import { expect, it } from 'vitest';
import { LineSplitter } from '../../../rig/serial/lineSplitter.ts';
import type { LineFraming, ReceivedLine } from '../../../rig/serial/receivedLine.ts';

async function split(framing: LineFraming, chunks: readonly string[]): Promise<readonly ReceivedLine[]> {
  const lines: ReceivedLine[] = [];
  const splitter = new LineSplitter(framing, (line) => lines.push(line));
  for (const [index, chunk] of chunks.entries()) splitter.feed(Buffer.from(chunk, 'latin1'), index);
  await splitter.end();
  return lines;
}

const CRLF: LineFraming = { delimiter: '\r\n', maxLineBytes: 16 };

it('hands on whole lines with the time of the chunk in which they ended, empty ones too, and the half line as torn', async () => {
  expect(await split(CRLF, ['ab', 'c\r', '\nde\r\n\r\nf'])).toEqual([
    { bytes: 'abc', fault: null, monotonicUs: 2 },
    { bytes: 'de', fault: null, monotonicUs: 2 },
    { bytes: '', fault: null, monotonicUs: 2 },
    { bytes: 'f', fault: 'torn', monotonicUs: 2 },
  ]);
});

it('a line of exactly the longest length is whole, one byte more is handed on in pieces marked too long', async () => {
  const longest = 'x'.repeat(16);
  expect(await split(CRLF, [`${longest}\r\n${longest}y\r\nok\r\n`])).toEqual([
    { bytes: longest, fault: null, monotonicUs: 0 },
    { bytes: longest, fault: 'tooLong', monotonicUs: 0 },
    { bytes: 'y', fault: 'tooLong', monotonicUs: 0 },
    { bytes: 'ok', fault: null, monotonicUs: 0 },
  ]);
});

it('a thousand bytes without delimiter lose nothing and cost only themselves', async () => {
  const garbage = Array.from({ length: 1000 }, (_, index) => String.fromCharCode((index * 37) % 256))
    .join('')
    .replaceAll('\n', 'n');
  const lines = await split(CRLF, [`${garbage}\r\ngood\r\n`]);
  expect(lines.at(-1)).toMatchObject({ bytes: 'good', fault: null });
  const pieces = lines.slice(0, -1);
  expect(pieces.every(({ fault, bytes }) => fault === 'tooLong' && bytes.length <= 16)).toBe(true);
  expect(pieces.map(({ bytes }) => bytes).join('')).toBe(garbage);
});

it('bytes cut at any place give the same lines (seed 7)', async () => {
  const stream = fc.array(fc.constantFrom('\r', '\n', '\r\n', 'a', 'bc', '\x00\xff', 'x'.repeat(9)), { maxLength: 40 });
  const framing = fc.constantFrom<LineFraming>(
    CRLF,
    { delimiter: '\n', maxLineBytes: 16 },
    { delimiter: '\r', maxLineBytes: 17 },
  );
  await fc.assert(
    fc.asyncProperty(stream, framing, fc.array(fc.nat(80), { maxLength: 8 }), async (parts, layout, cuts) => {
      const text = parts.join('');
      const places = [0, ...cuts.map((cut) => Math.min(cut, text.length)).sort((a, b) => a - b), text.length];
      const chunks = places.slice(1).map((end, index) => text.slice(places[index], end));
      const kept = ({ bytes, fault }: ReceivedLine): object => ({ bytes, fault });
      const cut = (await split(layout, chunks)).map(kept);
      expect(cut).toEqual((await split(layout, [text])).map(kept));
      // Nothing but delimiters may be missing.
      const bytes = cut.map((line) => ('bytes' in line ? line.bytes : '')).join('');
      expect(bytes.replaceAll(/[\r\n]/g, '')).toBe(text.replaceAll(/[\r\n]/g, ''));
    }),
    { seed: 7, numRuns: 300 },
  );
});
