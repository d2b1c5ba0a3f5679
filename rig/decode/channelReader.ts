import { appliedZero } from '../../analysis/calibration/appliedZero.ts';
import { acceptedCurve } from '../../analysis/calibration/channelErrors.ts';
import { currentLoopQuality } from '../../analysis/calibration/currentLoop.ts';
import { curveAt, isBeyondCurve } from '../../analysis/calibration/fitCurve.ts';
import type { ChannelName } from '../../analysis/channels.ts';
import { QUALITY } from '../../analysis/readings.ts';
import type { BenchChannel } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
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

/**
 * How a bench's channel becomes SI: raw value, by curve or scale, to the channel's unit; zero taken off; unit to SI; gauge pressures
 * add the barometer. Faults, the curve's reach and the range are judged by what the sensor itself said, before its zero is
 * taken off.
 */
export function channelReader(entry: BenchChannel, barometerPa: number, zeroCheck: ZeroCheck | null): ChannelReader {
  const unit = unitOf(entry.unit);
  const curve = entry.calibration?.curve ?? null;
  const fit = curve === null ? null : acceptedCurve(curve);
  const zero = appliedZero(zeroCheck, entry.channel)?.offset ?? 0;
  const qualityOf = (raw: number, reading: number): ChannelValue['quality'] => {
    const loop = entry.signal === 'currentLoop' ? currentLoopQuality(raw) : QUALITY.good;
    if (loop !== QUALITY.good) return loop;
    const isWithin = reading >= entry.range.min && reading <= entry.range.max;
    return isWithin && !(fit !== null && isBeyondCurve(fit, raw)) ? QUALITY.good : QUALITY.outOfRange;
  };
  return {
    channel: entry.channel,
    index: entry.position - 1,
    read(field) {
      const raw = parseDecimal(field);
      if (raw === null) return MISSING;
      const reading = fit === null ? entry.scale.gain * raw + entry.scale.offset : curveAt(fit, raw);
      return { value: siFrom(reading - zero, unit, barometerPa), quality: qualityOf(raw, reading) };
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
