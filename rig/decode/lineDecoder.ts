import type { ChannelName } from '../../analysis/channels.ts';
import { type BadLineKind, type LineCensus, QUALITY } from '../../analysis/readings.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { checkedBody } from '../serial/checksum.ts';
import { parsePracticeGreeting } from '../serial/practiceGreeting.ts';
import type { ReceivedLine } from '../serial/receivedLine.ts';
import { type ChannelReader, type ChannelValue, channelReader } from './channelReader.ts';
import { DeviceClock } from './deviceClock.ts';
import { skippedReadings } from './wrappingCounter.ts';

export type ReadingRow = {
  /** Device clock, unwrapped, never going back; null where the bench has none. */
  readonly deviceUs: number | null;
  /** Host's monotonic clock. */
  readonly arrivalUs: number;
  readonly channels: Readonly<Partial<Record<ChannelName, ChannelValue>>>;
};

export type DecodedLine =
  | { readonly kind: 'reading'; readonly row: ReadingRow }
  | { readonly kind: 'bad'; readonly badKind: BadLineKind }
  /** A line for people; `practice` if it is the greeting of a practice bench. */
  | { readonly kind: 'note'; readonly text: string; readonly practice: { readonly speedUp: number } | null }
  | { readonly kind: 'reconnected' };

export type LineDecoder = {
  push(line: ReceivedLine): DecodedLine;
  /** What was pushed so far. A line that lacks a number in some channels counts as 'notANumber' and is a reading all the same. */
  census(): LineCensus;
};

/**
 * Bytes become readings here and nowhere else: live lines and journals go through the same decoder.
 *
 * @param bench - says how a line is laid out and what its fields are [-]
 * @param barometerPa - added to gauge pressures [Pa]
 * @param zeroCheck - of the run: what it says to apply is taken off; null while there is no run, or none was taken [-]
 */
export function createLineDecoder(
  bench: BenchRecord,
  barometerPa: number,
  zeroCheck: ZeroCheck | null = null,
): LineDecoder {
  return new Decoder(bench, barometerPa, zeroCheck);
}

type Fields = { readonly sequence: number | null; readonly clockUs: number | null; readonly values: readonly string[] };

class Decoder implements LineDecoder {
  private readonly channels: readonly ChannelReader[];
  private readonly leadingFields: number;
  private readonly neededFields: number;
  private readonly clock: DeviceClock | null;
  private speedUp = 1;
  private lastSequence: number | null = null;
  private isAfterGap = false;
  private lineCount = 0;
  private readingCount = 0;
  private noteCount = 0;
  private lostReadingCount = 0;
  private reconnectCount = 0;
  private readonly badLineCounts: Partial<Record<BadLineKind, number>> = {};

  constructor(
    private readonly bench: BenchRecord,
    barometerPa: number,
    zeroCheck: ZeroCheck | null,
  ) {
    const { sequenceBits, deviceClockBits } = bench.wire;
    this.channels = bench.channels.map((entry) => channelReader(entry, barometerPa, zeroCheck));
    this.leadingFields = (sequenceBits === null ? 0 : 1) + (deviceClockBits === null ? 0 : 1);
    this.neededFields = this.leadingFields + Math.max(...bench.channels.map(({ position }) => position));
    this.clock = deviceClockBits === null ? null : new DeviceClock(deviceClockBits);
  }

  push(line: ReceivedLine): DecodedLine {
    if (line.fault === 'reconnected') {
      this.reconnectCount += 1;
      this.isAfterGap = true;
      return { kind: 'reconnected' };
    }
    this.lineCount += 1;
    if (line.fault !== null) return this.bad(line.fault);
    const { prefix } = this.bench.wire;
    if (line.bytes.startsWith('#') && !prefix.startsWith('#')) return this.note(line.bytes);
    if (!line.bytes.startsWith(prefix)) return this.bad('prefix');
    const body = this.checked(line.bytes.slice(prefix.length));
    if (body === null) return this.bad('checksum');
    const fields = body.split(',');
    if (fields.length < this.neededFields) return this.bad('fieldCount');
    const numbered = this.numbered(fields);
    if (numbered === null) return this.bad('notANumber');
    return this.reading(numbered, line.monotonicUs);
  }

  census(): LineCensus {
    const { lineCount, readingCount, noteCount, lostReadingCount, reconnectCount } = this;
    const badLineCounts = { ...this.badLineCounts };
    return { lineCount, readingCount, noteCount, badLineCounts, lostReadingCount, reconnectCount };
  }

  private checked(sentence: string): string | null {
    const { checksum } = this.bench.wire;
    return checksum === 'none' ? sentence : checkedBody(sentence, checksum);
  }

  /** Counter and clock as numbers of their declared width; null if one of them is none. */
  private numbered(fields: readonly string[]): Fields | null {
    const { sequenceBits, deviceClockBits } = this.bench.wire;
    const sequence = sequenceBits === null ? null : parseCounter(fields[0], sequenceBits);
    const clockUs = deviceClockBits === null ? null : parseCounter(fields[this.leadingFields - 1], deviceClockBits);
    if (Number.isNaN(sequence) || Number.isNaN(clockUs)) return null;
    return { sequence, clockUs, values: fields.slice(this.leadingFields) };
  }

  private reading({ sequence, clockUs, values }: Fields, arrivalUs: number): DecodedLine {
    const step = clockUs === null ? null : this.clock?.step(clockUs, arrivalUs, this.speedUp, this.isAfterGap);
    this.isAfterGap = false;
    // A clock that jumped means a bench that started anew: its counter then says nothing of what was lost.
    if (step?.isJump) this.count('clockJump');
    else this.countLost(sequence);
    this.lastSequence = sequence;

    const channels: Partial<Record<ChannelName, ChannelValue>> = {};
    let missingCount = 0;
    for (const { channel, index, read } of this.channels) {
      const value = read(values[index] ?? '');
      channels[channel] = value;
      if (value.quality === QUALITY.missing) missingCount += 1;
    }
    if (missingCount === this.channels.length) return this.bad('notANumber');
    if (missingCount > 0) this.count('notANumber');
    this.readingCount += 1;
    return { kind: 'reading', row: { deviceUs: step?.unwrappedUs ?? null, arrivalUs, channels } };
  }

  /** A line with a bad checksum leaves a gap in the counter too: it is counted by its kind and here. */
  private countLost(sequence: number | null): void {
    const { sequenceBits } = this.bench.wire;
    if (sequence === null || this.lastSequence === null || sequenceBits === null) return;
    this.lostReadingCount += skippedReadings(this.lastSequence, sequence, sequenceBits);
  }

  private note(bytes: string): DecodedLine {
    this.noteCount += 1;
    const practice = parsePracticeGreeting(bytes);
    if (practice !== null) this.speedUp = practice.speedUp;
    return { kind: 'note', text: bytes.slice(1), practice };
  }

  private bad(badKind: BadLineKind): DecodedLine {
    this.count(badKind);
    return { kind: 'bad', badKind };
  }

  private count(kind: BadLineKind): void {
    this.badLineCounts[kind] = (this.badLineCounts[kind] ?? 0) + 1;
  }
}

/** A whole number that fits into so many bits, or NaN. */
function parseCounter(field: string | undefined, bits: number): number {
  if (field === undefined || !/^\d{1,16}$/.test(field)) return Number.NaN;
  const value = Number(field);
  return value < 2 ** bits ? value : Number.NaN;
}
