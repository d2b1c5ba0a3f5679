import fc from 'fast-check';
import { expect, it } from 'vitest';
import { BAD_LINE_KINDS } from '../../../analysis/readings.ts';
import { decodeJournal } from '../../../rig/decode/decodeJournal.ts';
import { formatJournalRecord } from '../../../rig/journal/journalRecord.ts';
import { LineSplitter } from '../../../rig/serial/lineSplitter.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { line, sentence } from './sentence.ts';

const BAROMETER_PA = 100_000;

/** Through splitter, journal and decoder, as on the bench; all bytes arrive at the same time. */
async function decodeStream(chunks: readonly string[]) {
  const bench = inventedBench();
  let journal = '';
  const splitter = new LineSplitter(bench.wire, (received) => {
    journal += formatJournalRecord(received);
  });
  for (const chunk of chunks) splitter.feed(Buffer.from(chunk, 'latin1'), 5);
  await splitter.end();
  return decodeJournal(Buffer.from(journal, 'latin1'), bench, BAROMETER_PA);
}

it('gives columns in SI on the bench clock, from zero at the first reading', () => {
  const journal = [
    formatJournalRecord(line('#valve half open', 900_000)),
    formatJournalRecord(line(sentence('1,5000000,1,2,3,600,40'), 1_000_000)),
    formatJournalRecord(line(sentence('2,5100000,1,2,nan,660,40'), 1_300_000)),
  ].join('');
  const { readings, census, isPractice, firstArrivalUs } = decodeJournal(journal, inventedBench(), BAROMETER_PA);
  expect(readings.clock).toBe('device');
  expect([...readings.elapsedS]).toEqual([0, 0.1]);
  expect([...(readings.channels.speed?.values ?? [])]).toEqual([10, 11]); // 600 and 660 r/min
  expect([...(readings.channels.flow?.quality ?? [])]).toEqual([0, 1]);
  expect(readings.channels.torque).toBeUndefined();
  expect(census).toMatchObject({ lineCount: 3, noteCount: 1, readingCount: 2 });
  expect(isPractice).toBe(false);
  expect(firstArrivalUs).toBe(1_000_000);
});

it('goes by arrival where the bench has no clock', () => {
  const bench = inventedBench();
  const clockless = { ...bench, wire: { ...bench.wire, deviceClockBits: null } };
  const journal = [1_000_000, 1_250_000]
    .map((us, index) => formatJournalRecord(line(sentence(`${index},1,2,3,600,40`), us)))
    .join('');
  const { readings } = decodeJournal(journal, clockless, BAROMETER_PA);
  expect(readings.clock).toBe('arrival');
  expect([...readings.elapsedS]).toEqual([0, 0.25]);
  expect(readings.clockTie).toBeNull();
});

it('knows a practice bench by its greeting', () => {
  const greeting = sentence('slipwright practice bench, speed-up 5').replace('$', '#');
  const decoded = decodeJournal(formatJournalRecord(line(greeting)), inventedBench(), BAROMETER_PA);
  expect(decoded).toMatchObject({ isPractice: true, speedUp: 5 });
});

/** A reading each tenth of a second at the host, the bench's clock so much faster. */
function tenSeconds(benchPerHost: number): string {
  return Array.from({ length: 100 }, (_, index) => {
    const arrivalUs = 1_000_000 + index * 100_000;
    const deviceUs = 5_000_000 + index * 100_000 * benchPerHost;
    return formatJournalRecord(line(sentence(`${index},${deviceUs},1,2,3,600,40`), arrivalUs));
  }).join('');
}

it("holds the bench's clock against the host's: 100.2 ms where 100 ms passed are 0.2 % fast", () => {
  const { readings } = decodeJournal(tenSeconds(1.002), inventedBench(), BAROMETER_PA);
  expectRelative(readings.clockTie?.rateError ?? Number.NaN, 0.002, 1e-9); // by hand: 100.2/100 - 1
  expect(readings.clockTie?.jumpCount).toBe(0);
  expect(Math.abs(readings.clockTie?.medianDelayS ?? Number.NaN)).toBeLessThan(1e-6); // every line took as long as the quickest
});

it('takes the speed-up of a practice bench off before it calls its clock fast', () => {
  const greeting = formatJournalRecord(line(sentence('slipwright practice bench, speed-up 5').replace('$', '#'), 0));
  const { readings } = decodeJournal(greeting + tenSeconds(5), inventedBench(), BAROMETER_PA);
  expect(Math.abs(readings.clockTie?.rateError ?? Number.NaN)).toBeLessThan(1e-12); // 5/5 - 1
});

it('names the line of a journal that holds something else', () => {
  expect(() => decodeJournal('1\t$1\nnonsense\n', inventedBench(), BAROMETER_PA, 'x/journal.log')).toThrowError(
    expect.objectContaining({ code: 'JOURNAL', message: expect.stringMatching(/x\/journal\.log.*line 2/) }),
  );
});

it('bytes cut at any place give the same readings, garbage among them or not (seed 21)', async () => {
  const parts = fc.array(
    fc.oneof(
      fc.nat(1000).map((n) => `${sentence(`${n},${n * 1000},1,2,${n % 40},600,40`)}\r\n`),
      fc.constantFrom('\xff\x00garbage', '\r', '\n', '$', '$1,2*0000\r\n', 'z'.repeat(300)),
    ),
    { maxLength: 30 },
  );
  await fc.assert(
    fc.asyncProperty(parts, fc.array(fc.nat(2000), { maxLength: 10 }), async (pieces, cuts) => {
      const text = pieces.join('');
      const places = [0, ...cuts.map((cut) => Math.min(cut, text.length)).sort((a, b) => a - b), text.length];
      const chunks = places.slice(1).map((end, index) => text.slice(places[index], end));
      const decoded = await decodeStream(chunks);
      expect(decoded).toEqual(await decodeStream([text]));
      const { elapsedS } = decoded.readings;
      expect(elapsedS.every((time, index) => index === 0 || time >= (elapsedS[index - 1] ?? 0))).toBe(true);
    }),
    { seed: 21, numRuns: 150 },
  );
});

it('a thousand garbage bytes between two good lines cost no reading', async () => {
  const garbage = Array.from({ length: 1000 }, (_, index) => String.fromCharCode(0x80 + ((index * 7) % 0x80))).join('');
  const good = (n: number): string => `${sentence(`${n},${n},1,2,3,600,40`)}\r\n`;
  const { census } = await decodeStream([good(1), garbage, '\r\n', good(2)]);
  // By hand: 1000 bytes in pieces of at most 256 are four.
  expect(census).toMatchObject({ readingCount: 2, badLineCounts: { tooLong: 4 }, lostReadingCount: 0 });
});

it('keeps where bad lines came, by their arrival after the last reading, and where the bench came back', () => {
  const journal = [
    formatJournalRecord(line('garbage', 900_000)),
    formatJournalRecord(line(sentence('1,5000000,1,2,3,600,40'), 1_000_000)),
    formatJournalRecord(line(sentence('2,5100000,1,2,3,600,40'), 1_100_000)),
    formatJournalRecord(line(`${sentence('3,5200000,1,2,3,600,40').slice(0, -1)}Z`, 1_350_000)),
    formatJournalRecord({ ...line('', 2_600_000), fault: 'reconnected' }),
  ].join('');
  const { badLines } = decodeJournal(journal, inventedBench(), BAROMETER_PA);
  // 0.1 s of the bench, then 0.25 s and 1.5 s of the host after the last reading
  expect([...badLines.elapsedS]).toEqual([0, 0.35, 1.6]);
  expect([...badLines.kinds].map((kind) => BAD_LINE_KINDS[kind] ?? 'reconnected')).toEqual([
    'prefix',
    'checksum',
    'reconnected',
  ]);
});
