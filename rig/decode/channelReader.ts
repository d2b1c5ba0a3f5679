import type { ChannelName } from '../../analysis/channels.ts';
import { QUALITY } from '../../analysis/readings.ts';
import type { BenchChannel } from '../../analysis/records/benchRecord.ts';
import { siFrom, unitOf } from '../../analysis/units.ts';

export type ChannelValue = {
  /** SI; NaN where missing. */
  readonly value: number;
  readonly quality: (typeof QUALITY)[keyof typeof QUALITY];
};

export const MISSING: ChannelValue = { value: Number.NaN, quality: QUALITY.missing };

export type ChannelReader = {
  readonly channel: ChannelName;
  /** Index of its field behind counter and clock. */
  readonly index: number;
  read(field: string): ChannelValue;
};

/** How a bench's channel becomes SI: scale, range in the channel's unit, unit; gauge pressures add the barometer. */
export function channelReader(entry: BenchChannel, barometerPa: number): ChannelReader {
  const unit = unitOf(entry.unit);
  return {
    channel: entry.channel,
    index: entry.position - 1,
    read(field) {
      const raw = parseDecimal(field);
      if (raw === null) return MISSING;
      const reading = entry.scale.gain * raw + entry.scale.offset;
      const isWithin = reading >= entry.range.min && reading <= entry.range.max;
      return {
        value: siFrom(reading, unit, barometerPa),
        quality: isWithin ? QUALITY.good : QUALITY.outOfRange,
      };
    },
  };
}

const DECIMAL = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?$/;

/** A decimal number, blanks around it allowed, or null: Number() would take '' for 0 and '0x10' for 16. */
export function parseDecimal(field: string): number | null {
  const text = field.trim();
  if (!DECIMAL.test(text)) return null;
  const value = Number(text);
  return Number.isFinite(value) ? value : null;
}
