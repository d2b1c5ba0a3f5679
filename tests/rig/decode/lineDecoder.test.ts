import { expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import { type BenchRecord, benchRecord } from '../../../analysis/records/benchRecord.ts';
import { createLineDecoder, type DecodedLine } from '../../../rig/decode/lineDecoder.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { line, sentence } from './sentence.ts';

const BAROMETER_PA = 100_000;

function benchWith(wire: Partial<BenchRecord['wire']>): BenchRecord {
  const bench = inventedBench();
  return { ...bench, wire: { ...bench.wire, ...wire } };
}

function readingOf(decoded: DecodedLine) {
  if (decoded.kind !== 'reading') throw new Error(`expected a reading, got ${JSON.stringify(decoded)}`);
  return decoded.row;
}

/** Elapsed device time of each reading [s], for bodies 'clock,...' on a bench without counter. */
function clockScale(wire: Partial<BenchRecord['wire']>, stamps: readonly [deviceUs: number, arrivalUs: number][]) {
  const decoder = createLineDecoder(benchWith({ sequenceBits: null, ...wire }), BAROMETER_PA);
  const times = stamps.map(([deviceUs, arrivalUs]) => {
    return readingOf(decoder.push(line(sentence(`${deviceUs},1,2,3,600,40`), arrivalUs))).deviceUs;
  });
  return { times, census: decoder.census() };
}

it('turns a sentence into SI: absolute and gauge pressure, flow, speed and temperature', () => {
  const decoder = createLineDecoder(inventedBench(), BAROMETER_PA);
  const row = readingOf(decoder.push(line(sentence('7,2500000,0.8,3,12,600,40'), 99)));
  // By hand: 0.8 bar = 80 000 Pa; 3 bar gauge + 100 000 Pa = 400 000 Pa; 12 l/min = 0.012/60 m³/s; 600/60 rev/s; 40 + 273.15 K.
  expect(row.deviceUs).toBe(2_500_000);
  expect(row.arrivalUs).toBe(99);
  expect(row.channels.suctionPressure?.value).toBeCloseTo(80_000, 6);
  expect(row.channels.deliveryPressure?.value).toBeCloseTo(400_000, 6);
  expect(row.channels.flow?.value).toBeCloseTo(2e-4, 15);
  expect(row.channels.speed?.value).toBeCloseTo(10, 12);
  expect(row.channels.oilTemperature?.value).toBeCloseTo(313.15, 10);
});

it('scales a raw current to its unit: 12 mA of 4 to 20 mA is half of 10 bar', () => {
  const { channels, ...bench } = inventedBench();
  const scaled = benchRecord.parse({
    ...bench,
    channels: channels.map((entry) =>
      // x = (I - 4)/16 × 10 bar: gain 0.625 bar/mA, offset -2.5 bar.
      entry.channel === 'deliveryPressure' ? { ...entry, scale: { gain: 0.625, offset: -2.5 } } : entry,
    ),
  });
  const row = readingOf(createLineDecoder(scaled, BAROMETER_PA).push(line(sentence('1,1,1,12,3,600,40'))));
  expect(row.channels.deliveryPressure?.value).toBeCloseTo(600_000, 6);
});

it('marks a value outside the range of its channel and keeps it', () => {
  const row = readingOf(createLineDecoder(inventedBench(), BAROMETER_PA).push(line(sentence('1,1,2.1,3,12,600,40'))));
  expect(row.channels.suctionPressure).toEqual({ value: 210_000, quality: QUALITY.outOfRange });
  expect(row.channels.flow?.quality).toBe(QUALITY.good);
});

it('counts each kind of bad line by its name, and goes on', () => {
  const decoder = createLineDecoder(inventedBench(), BAROMETER_PA);
  const good = sentence('1,1,1,2,3,600,40');
  const kinds = [
    line(good.replace('600', '601')),
    line('$1,1,1,2,3,600,40'),
    line(sentence('1,1,1,2,3,600')),
    line(sentence('x,1,1,2,3,600,40')),
    line(sentence('1,4294967296,1,2,3,600,40')), // one more than a clock of 32 bits can say
    line(sentence('1,1,,nan,-,0x10,1e999')),
    line(`!${good}`),
    line(''),
    { ...line('$1,'), fault: 'torn' as const },
    { ...line('xxxx'), fault: 'tooLong' as const },
  ].map((bad) => decoder.push(bad));
  const expected = [
    'checksum',
    'checksum',
    'fieldCount',
    'notANumber',
    'notANumber',
    'notANumber',
    'prefix',
    'prefix',
    'torn',
    'tooLong',
  ];
  expect(kinds.map((decoded) => (decoded.kind === 'bad' ? decoded.badKind : decoded.kind))).toEqual(expected);
  expect(decoder.push(line(good)).kind).toBe('reading');
  expect(decoder.census()).toEqual({
    lineCount: 11,
    readingCount: 1,
    noteCount: 0,
    badLineCounts: { checksum: 2, fieldCount: 1, notANumber: 3, prefix: 2, torn: 1, tooLong: 1 },
    lostReadingCount: 0,
    reconnectCount: 0,
  });
});

it('a field that is no number costs its channel only, and is counted; one that no channel needs costs nothing', () => {
  const decoder = createLineDecoder(inventedBench(), BAROMETER_PA);
  const row = readingOf(decoder.push(line(sentence('1,1,nan,2,3,600,40,n/a'))));
  expect(row.channels.suctionPressure).toEqual({ value: Number.NaN, quality: QUALITY.missing });
  expect(row.channels.flow?.quality).toBe(QUALITY.good);
  expect(decoder.census().badLineCounts).toEqual({ notANumber: 1 });
  readingOf(decoder.push(line(sentence('2,2,1,2,3,600,40,n/a'))));
  expect(decoder.census().badLineCounts).toEqual({ notANumber: 1 });
});

it('a channel that the line lacks makes every line one of wrong field count', () => {
  const bench = inventedBench();
  const far = benchRecord.parse({
    ...bench,
    channels: bench.channels.map((entry) => (entry.channel === 'flow' ? { ...entry, position: 9 } : entry)),
  });
  expect(createLineDecoder(far, BAROMETER_PA).push(line(sentence('1,1,1,2,3,600,40')))).toEqual({
    kind: 'bad',
    badKind: 'fieldCount',
  });
});

it('reads XOR sentences and bare ones where the bench declares them', () => {
  const xor = createLineDecoder(
    benchWith({ checksum: 'xor', sequenceBits: null, deviceClockBits: null }),
    BAROMETER_PA,
  );
  // By hand: XOR of the characters of "1,2,3,4,5" is 0x31 (1^2^3^4^5 = 1 and the tops 0x30 five times, commas cancel).
  expect(xor.push(line('$1,2,3,4,5*31')).kind).toBe('reading');
  expect(xor.push(line('$1,2,3,4,5*30'))).toEqual({ kind: 'bad', badKind: 'checksum' });
  const bare = createLineDecoder(
    benchWith({ checksum: 'none', prefix: '', sequenceBits: null, deviceClockBits: null }),
    BAROMETER_PA,
  );
  expect(bare.push(line('1,2,3,4,5')).kind).toBe('reading');
});

it('counts the readings that a gap in the counter says are lost, over its wrap too', () => {
  const decoder = createLineDecoder(benchWith({ sequenceBits: 4, deviceClockBits: null }), BAROMETER_PA);
  // 13 -> 14: none; 14 -> 2 passes 15, 0, 1: three; 2 -> 3: none.
  for (const counter of [13, 14, 2, 3]) readingOf(decoder.push(line(sentence(`${counter},1,2,3,600,40`))));
  expect(decoder.census().lostReadingCount).toBe(3);
});

it('a counter that starts anew is no four thousand million lost readings', () => {
  const decoder = createLineDecoder(benchWith({ deviceClockBits: null }), BAROMETER_PA);
  for (const counter of [500, 501, 0, 1]) readingOf(decoder.push(line(sentence(`${counter},1,2,3,600,40`))));
  expect(decoder.census().lostReadingCount).toBe(0);
});

it('unwraps the device clock at its declared width', () => {
  const top = 2 ** 32;
  const wide = clockScale({}, [
    [top - 30, 0],
    [top - 10, 20],
    [10, 40],
  ]);
  expect(wide.times).toEqual([top - 30, top - 10, top + 10]);
  expect(wide.census.badLineCounts).toEqual({});
  const narrow = clockScale({ deviceClockBits: 16 }, [
    [65_000, 0],
    [464, 1_000],
    [1_464, 2_000],
  ]);
  expect(narrow.times).toEqual([65_000, 66_000, 67_000]); // 464 + 65 536
});

it('counts a device clock that went back or leapt, keeps the reading, and goes on from the arrival time', () => {
  const back = clockScale({}, [
    [50_000_000, 0],
    [50_020_000, 20_000],
    [1_000, 40_000], // started anew: 20 ms passed at the host
    [21_000, 60_000],
  ]);
  expect(back.times).toEqual([50_000_000, 50_020_000, 50_040_000, 50_060_000]);
  expect(back.census.badLineCounts).toEqual({ clockJump: 1 });
  expect(back.census.readingCount).toBe(4);
  const leap = clockScale({}, [
    [0, 0],
    [10_100_001, 100_000], // 10 s and 1 µs more than passed at the host
    [10_200_001, 200_000],
  ]);
  expect(leap.times).toEqual([0, 100_000, 200_000]);
  expect(leap.census.badLineCounts).toEqual({ clockJump: 1 });
});

it('a long pause that passed at the host too is no jump', () => {
  const { times, census } = clockScale({}, [
    [0, 0],
    [60_000_000, 60_000_000],
  ]);
  expect(times).toEqual([0, 60_000_000]);
  expect(census.badLineCounts).toEqual({});
});

it('after a gap the turns of a narrow clock that passed unseen are counted', () => {
  const decoder = createLineDecoder(benchWith({ sequenceBits: null, deviceClockBits: 16 }), BAROMETER_PA);
  decoder.push(line(sentence('100,1,2,3,600,40'), 0));
  expect(decoder.push({ monotonicUs: 900_000, bytes: '', fault: 'reconnected' })).toEqual({ kind: 'reconnected' });
  // 1.000 s later: 1 000 000 µs = 15 turns of 65 536 and 16 960; the clock says 100 + 16 960.
  expect(readingOf(decoder.push(line(sentence('17060,1,2,3,600,40'), 1_000_500))).deviceUs).toBe(1_000_100);
  expect(decoder.census().reconnectCount).toBe(1);
});

it('lines for people are notes; only a greeting with its checksum makes a practice bench', () => {
  const decoder = createLineDecoder(inventedBench(), BAROMETER_PA);
  const greeting = sentence('slipwright practice bench, speed-up 20').replace('$', '#');
  expect(decoder.push(line('#filter changed'))).toEqual({ kind: 'note', text: 'filter changed', practice: null });
  expect(decoder.push(line('#slipwright practice bench, speed-up 20'))).toMatchObject({ kind: 'note', practice: null });
  expect(decoder.push(line(greeting))).toMatchObject({ kind: 'note', practice: { speedUp: 20 } });
  expect(decoder.census().noteCount).toBe(3);
});
