import { max, mean, medianAbsoluteDeviation, medianSorted, min, sampleVariance } from 'simple-statistics';
import { CHANNELS, type ChannelName } from '../channels.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import { goodValues, type Readings } from '../readings.ts';
import type { BenchChannel, BenchRecord } from '../records/benchRecord.ts';
import type { ZeroCheck } from '../records/runRecord.ts';
import { straightDrift } from '../steady/straightDrift.ts';
import { effectiveReadingCount } from '../uncertainty/effectiveReadings.ts';
import { exactly } from '../uncertainty/source.ts';
import { readingFrom, unitOf } from '../units.ts';
import type { ChannelZero } from './appliedZero.ts';
import { atInletHeight } from './tappingHead.ts';

export type ZeroCircumstances = {
  readonly barometerPa: number;
  /** Of the oil in the transmitters' tubes. */
  readonly oilDensityKgPerM3: number;
  readonly takenAtUtc: string;
};

export type ZeroCheckRefusal = {
  readonly code:
    | 'ZERO_TOO_SHORT'
    | 'ZERO_NOTHING_TO_CHECK'
    | 'ZERO_CHANNEL_SILENT'
    | 'ZERO_SHAFT_TURNS'
    | 'ZERO_WILD_READING'
    | 'ZERO_NOT_STILL'
    | 'ZERO_NOT_AT_REST';
  /** Null where no single channel is to blame. */
  readonly channel: ChannelName | null;
  readonly text: string;
};

/** House limits, common practice and no source: how long a zero is watched, and with how many readings at least. */
const LEAST_DURATION_S = 3;
const LEAST_READINGS = 20;

/** An offset beyond this share of the range is no offset: a line under pressure, a shaft that turns, a broken sensor [1]. */
const LARGEST_OFFSET_SHARE = 0.05;

/** A reading further from the median than both is wild: standard deviations (from the median deviation), share of the range [1]. */
const WILD = { deviations: 10, share: 0.005 } as const;

/** Movement between the halves beyond this many standard deviations of their difference, and one step of the display [1]. */
const MOVED_DEVIATIONS = 4;

/** Without a stated offset a shaft counts as turning beyond this share of its range [1]. */
const TURNING_SHARE = 0.001;

/** Channels of which it is known what they must say when everything is at rest; temperatures and levels are not. */
function isZeroable({ channel }: BenchChannel): boolean {
  return channel !== 'barometer' && ['pressure', 'flow', 'speed', 'torque'].includes(CHANNELS[channel].quantity);
}

/** Nothing; a pressure is the barometer less the weight of the oil in the tube up to its transmitter [channel's own unit]. */
function expectedReading(channel: BenchChannel, { barometerPa, oilDensityKgPerM3 }: ZeroCircumstances): number {
  const unit = unitOf(channel.unit);
  if (unit.quantity !== 'pressure') return 0;
  const headPa = atInletHeight(exactly(0), channel, exactly(oilDensityKgPerM3)).value;
  return readingFrom(barometerPa - headPa, unit, barometerPa);
}

/** Square of the standard uncertainty of the mean of correlated readings. */
function varianceOfMean(values: readonly number[]): number {
  return values.length < 2 ? 0 : sampleVariance([...values]) / effectiveReadingCount(values);
}

/**
 * The same of what is left when the readings' own straight line is taken off: a channel that drifts must not be held against
 * its drift. straightDrift has u²(b) = u²(mean) n/Σ (i − ī)², and Σ (i − ī)² = n³/12 for even steps, so u(mean) = u(b) n/√12.
 */
function varianceAboutLine(values: readonly number[]): number {
  const steps = Float64Array.from(values, (_, index) => index);
  const drift = straightDrift(steps, Float64Array.from(values));
  return drift === null ? 0 : (drift.standardUncertainty * values.length) ** 2 / 12;
}

function refuse(
  code: ZeroCheckRefusal['code'],
  channel: ChannelName | null,
  text: string,
): Outcome<never, ZeroCheckRefusal> {
  return no({ code, channel, text });
}

function hasWildReading(values: readonly number[], span: number): boolean {
  const sorted = [...values].sort((a, b) => a - b);
  const median = medianSorted(sorted);
  const limit = Math.max(WILD.deviations * 1.4826 * medianAbsoluteDeviation(sorted), WILD.share * span);
  return max(sorted) - median > limit || median - min(sorted) > limit;
}

/** The zero of one channel, or why it was not at rest; null where its readings say nothing of its zero. */
function channelZero(
  entry: BenchChannel,
  values: readonly number[],
  expected: number,
): Outcome<ChannelZero | null, ZeroCheckRefusal> {
  const { channel, unit, range, resolution } = entry;
  const { label } = CHANNELS[channel];
  const span = range.max - range.min;
  const stated = entry.calibration?.offset.standardUncertainty ?? null;
  const offset = mean([...values]) - expected;
  if (channel === 'speed') {
    const limit = stated === null ? TURNING_SHARE * span : 3 * stated + resolution;
    if (Math.abs(offset) > limit) {
      const text = `The shaft turns, or its pick-up says so: ${offset.toPrecision(3)} ${unit} where ${limit.toPrecision(2)} would pass for standstill. Stop it and take the zero again.`;
      return refuse('ZERO_SHAFT_TURNS', channel, text);
    }
  }
  if (hasWildReading(values, span)) {
    const text = `Single readings of '${label}' stand far from all others (${min([...values]).toPrecision(4)} to ${max([...values]).toPrecision(4)} ${unit}): look for a loose contact, then take the zero again.`;
    return refuse('ZERO_WILD_READING', channel, text);
  }
  const half = Math.floor(values.length / 2);
  const [first, second] = [values.slice(0, half), values.slice(half)];
  const moved = mean(second) - mean(first);
  const scatter = Math.sqrt(varianceAboutLine(first) + varianceAboutLine(second));
  if (Math.abs(moved) > MOVED_DEVIATIONS * scatter + resolution) {
    const text = `'${label}' still moved by ${moved.toPrecision(2)} ${unit} while its zero was taken: wait until everything is at rest, then take it again.`;
    return refuse('ZERO_NOT_STILL', channel, text);
  }
  if (Math.abs(offset) > LARGEST_OFFSET_SHARE * span) {
    const text = `'${label}' stands ${offset.toPrecision(3)} ${unit} from what it should say at rest, more than ${100 * LARGEST_OFFSET_SHARE} % of its range: open the valve, vent the line, and if it stays, have the instrument looked at.`;
    return refuse('ZERO_NOT_AT_REST', channel, text);
  }
  const own = Math.sqrt(varianceOfMean(values) + resolution ** 2 / 12);
  const isFrozen = values.every((value) => value === values[0]);
  if (isFrozen && stated === null) return yes(null);
  // A value that never moves shows that nothing was counted, not that the zero is right: it keeps what was stated.
  const standardUncertainty = isFrozen && stated !== null ? Math.max(own, stated) : own;
  return yes({ channel, offset, standardUncertainty, isApplied: false });
}

/**
 * The zero check before a run: shaft at rest, delivery valve open, pressure tappings open to the atmosphere. Flow, drain, speed
 * and torque should say nothing; a pressure the barometer less ρ g h of its oil-filled tube. Offset = mean indicated −
 * expected, u² = s²/n_eff + resolution²/12. Nothing is applied yet: {@link withApplied}.
 *
 * Not in u: the barometer's error, which every absolute pressure shares, and the height of a tube. channelValue carries the
 * first as the barometer's own source. The second cancels between this check and atInletHeight, which counts it again:
 * a zeroed pressure is stated a little too uncertain, never too certain.
 *
 * @param readings - some seconds at rest, no zero taken off [n readings, oldest first]
 * @param bench - bench record in force [-]
 * @param circumstances - barometer, density of the oil in the tubes, time [-]
 * @returns offset and its standard uncertainty a channel, in the channel's own unit, or which channel was not at rest [-]
 *
 * Source: JCGM 100:2008, 4.2 (type A, with the effective number of readings), 4.3.7 (rectangular step); the house limits
 * are common practice, no source.
 */
export function takeZeroCheck(
  readings: Readings,
  bench: BenchRecord,
  circumstances: ZeroCircumstances,
): Outcome<ZeroCheck, ZeroCheckRefusal> {
  const count = readings.elapsedS.length;
  const durationS = (readings.elapsedS[count - 1] ?? 0) - (readings.elapsedS[0] ?? 0);
  if (count < LEAST_READINGS || durationS < LEAST_DURATION_S) {
    const text = `The zero was watched for ${durationS.toFixed(1)} s and ${count} readings; ${LEAST_DURATION_S} s and ${LEAST_READINGS} readings are needed.`;
    return refuse('ZERO_TOO_SHORT', null, text);
  }
  const channels: ChannelZero[] = [];
  // The speed first: where the shaft turns, flow and torque are not to blame.
  const zeroable = bench.channels
    .filter(isZeroable)
    .sort((a, b) => Number(b.channel === 'speed') - Number(a.channel === 'speed'));
  for (const entry of zeroable) {
    const column = readings.channels[entry.channel];
    const good = column === undefined ? [] : goodValues(column);
    if (good.length < count / 2) {
      const text = `'${CHANNELS[entry.channel].label}' gave ${good.length} good readings of ${count}: see to its wiring and its range first.`;
      return refuse('ZERO_CHANNEL_SILENT', entry.channel, text);
    }
    const unit = unitOf(entry.unit);
    const values = good.map((si) => readingFrom(si, unit, circumstances.barometerPa));
    const zero = channelZero(entry, values, expectedReading(entry, circumstances));
    if (!zero.ok) return zero;
    if (zero.value !== null) channels.push(zero.value);
  }
  if (channels.length === 0) {
    const text = 'The bench has no channel whose zero can be told at rest.';
    return refuse('ZERO_NOTHING_TO_CHECK', null, text);
  }
  return yes({ takenAtUtc: circumstances.takenAtUtc, channels });
}

/**
 * A zero check with the channels from whose readings it is to be taken off.
 *
 * @param zeroCheck - as taken [-]
 * @param channels - names of the channels to be zeroed; all others are only recorded [-]
 * @returns the same check, each channel marked [-]
 * @throws RangeError if the check did not measure one of them
 */
export function withApplied(zeroCheck: ZeroCheck, channels: readonly ChannelName[]): ZeroCheck {
  for (const channel of channels) {
    if (!zeroCheck.channels.some((entry) => entry.channel === channel)) {
      throw new RangeError(`channels: the zero of ${channel} was not measured`);
    }
  }
  const wanted = new Set<string>(channels);
  return {
    ...zeroCheck,
    channels: zeroCheck.channels.map((entry) => ({ ...entry, isApplied: wanted.has(entry.channel) })),
  };
}
