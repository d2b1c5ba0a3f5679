import { appliedZero } from '../calibration/appliedZero.ts';
import { acceptedCurve } from '../calibration/channelErrors.ts';
import { rawAt } from '../calibration/fitCurve.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { RunRecord } from '../records/runRecord.ts';
import { readingFrom, unitOf } from '../units.ts';

/** The last codes of converters with 10, 12, 14, 16 and 24 bits, unsigned and signed. */
const LAST_CODES = [
  1023, 4095, 16_383, 65_535, 16_777_215, -2048, 2047, -8192, 8191, -32_768, 32_767, -8_388_608, 8_388_607,
];

/** How near a code must come after the way to SI and back [1]. */
const ROUNDING = 1e-6;

/** Saturation happens at the end of a range: within this share of it, or beyond [1]. */
const END_OF_RANGE_SHARE = 0.1;

/** So many readings must be whole counts before a signal is taken for counts [-]. */
const CHECKED_READINGS = 50;

function rawOf(channel: BenchChannel, indicated: number): number {
  const curve = channel.calibration?.curve ?? null;
  if (curve !== null) return rawAt(acceptedCurve(curve), indicated);
  return (indicated - channel.scale.offset) / channel.scale.gain;
}

function isNear(raw: number, code: number): boolean {
  return Math.abs(raw - code) <= ROUNDING * Math.max(1, Math.abs(code));
}

/**
 * The last code of a converter at which a channel stands, where its signal is counts that the bench record scales.
 *
 * @param channel - channel of the bench record [-]
 * @param run - barometer and zero check of the run [-]
 * @param valueSi - a value of the channel [SI unit of the channel]
 * @param others - other values of it, by which whole counts are told from measured numbers [SI unit of the channel]
 * @returns the code, 32767 for example; null where the value is none, lies inside the range, or the signal is no counts [-]
 */
export function converterLimit(
  channel: BenchChannel,
  run: RunRecord,
  valueSi: number,
  others: Float64Array,
): number | null {
  const { scale, signal, range, calibration } = channel;
  const isScaled = scale.gain !== 1 || scale.offset !== 0 || calibration?.curve != null;
  if (!isScaled || scale.gain === 0 || signal !== 'engineering') return null;
  const unit = unitOf(channel.unit);
  const zero = appliedZero(run.zeroCheck, channel.channel)?.offset ?? 0;
  const indicatedOf = (si: number): number => readingFrom(si, unit, run.setUp.barometerPa.value) + zero;
  const indicated = indicatedOf(valueSi);
  const margin = END_OF_RANGE_SHARE * (range.max - range.min);
  if (indicated > range.min + margin && indicated < range.max - margin) return null;
  const raw = rawOf(channel, indicated);
  const code = LAST_CODES.find((candidate) => isNear(raw, candidate));
  if (code === undefined) return null;
  const stride = Math.max(1, Math.floor(others.length / CHECKED_READINGS));
  for (let index = 0; index < others.length; index += stride) {
    const other = rawOf(channel, indicatedOf(others[index] ?? Number.NaN));
    if (!isNear(other, Math.round(other))) return null;
  }
  return code;
}
