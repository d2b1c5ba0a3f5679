import { CHANNELS, type ChannelName } from '../channels.ts';
import { type Column, QUALITY, type Readings } from '../readings.ts';
import type { BenchChannel, HoldLimits } from '../records/benchRecord.ts';

/** Channels that must stand still in a hold. */
export const HOLD_CHANNELS = ['speed', 'deliveryPressure', 'suctionPressure', 'flow', 'oilTemperature'] as const;
export type HoldChannel = (typeof HOLD_CHANNELS)[number];

/** A stretch of readings, [first, end). */
export type Stretch = { readonly first: number; readonly end: number };

export type HoldSearch = {
  readonly limits: HoldLimits;
  /** Turns an absolute pressure limit into the two-bar rule of the limits [Pa]. */
  readonly barometerPa: number;
  /** Time after a change that does not count, so that the slowest channel has followed [s]. */
  readonly leadS: number;
};

/** Means are taken over this long before stillness is judged: shorter noise is not movement [s]. */
const BLOCK_S = 0.5;

/** A pressure from here up is judged relatively, below absolutely; in the manner of ISO 4409 [Pa gauge]. */
const RELATIVE_PRESSURE_FROM_PA = 2e5;

/** Flow far below the run's largest is judged against this share of the largest: a share of nothing is nothing [1]. */
const SMALL_FLOW_SHARE = 0.1;

type Block = Stretch & { readonly means: Readonly<Record<HoldChannel, number>> };

function goodMean(column: Column, first: number, end: number): number {
  let sum = 0;
  let count = 0;
  for (let index = first; index < end; index += 1) {
    if (column.quality[index] !== QUALITY.good) continue;
    sum += column.values[index] ?? Number.NaN;
    count += 1;
  }
  // Half the block or more must be good, or it says nothing.
  return 2 * count >= end - first && count > 0 ? sum / count : Number.NaN;
}

/** Cuts the readings into blocks of half a second and takes each channel's mean. */
function blocksOf(readings: Readings, columns: Readonly<Record<HoldChannel, Column>>): Block[] {
  const { elapsedS } = readings;
  const blocks: Block[] = [];
  let first = 0;
  while (first < elapsedS.length) {
    const startS = elapsedS[first] ?? Number.NaN;
    let end = first + 1;
    while (end < elapsedS.length && (elapsedS[end] ?? Number.NaN) < startS + BLOCK_S) end += 1;
    const [from, to] = [first, end];
    const meanOf = (channel: HoldChannel): number => goodMean(columns[channel], from, to);
    blocks.push({
      first,
      end,
      means: {
        speed: meanOf('speed'),
        deliveryPressure: meanOf('deliveryPressure'),
        suctionPressure: meanOf('suctionPressure'),
        flow: meanOf('flow'),
        oilTemperature: meanOf('oilTemperature'),
      },
    });
    first = end;
  }
  return blocks;
}

/** Half the span that a channel may cover within a hold, around a value of it, in SI. */
export function stillnessLimit(
  channel: HoldChannel,
  value: number,
  largestFlowM3PerS: number,
  search: HoldSearch,
): number {
  const { limits, barometerPa } = search;
  if (channel === 'speed') return limits.speed * Math.abs(value);
  if (channel === 'flow') return limits.flow * Math.max(Math.abs(value), SMALL_FLOW_SHARE * largestFlowM3PerS);
  if (channel === 'oilTemperature') return limits.oilTemperatureK;
  const gaugePa = value - barometerPa;
  return gaugePa >= RELATIVE_PRESSURE_FROM_PA ? limits.pressure * gaugePa : limits.pressureBelow2BarPa;
}

/** The columns of the hold channels, or the names of those that the readings lack. */
export function holdColumns(
  readings: Readings,
): Readonly<Record<HoldChannel, Column>> | { readonly missing: readonly ChannelName[] } {
  const { speed, deliveryPressure, suctionPressure, flow, oilTemperature } = readings.channels;
  if (speed && deliveryPressure && suctionPressure && flow && oilTemperature) {
    return { speed, deliveryPressure, suctionPressure, flow, oilTemperature };
  }
  return { missing: HOLD_CHANNELS.filter((channel) => readings.channels[channel] === undefined) };
}

/**
 * Finds the holds of a run: the stretches in which every hold channel's half-second means stay within ± its limit for
 * the least duration and longer, the shaft turning. The lead after a change is left out.
 *
 * @param readings - a run, or the last part of one [n readings, oldest first]
 * @param search - limits, barometer [Pa] and lead [s]
 * @returns stretches of readings, oldest first, not overlapping; none where a channel is missing [-]
 *
 * Source: steady state by permissible variation, in the manner of ISO 4409; the limits stand in the bench record.
 */
export function findHolds(readings: Readings, search: HoldSearch): readonly Stretch[] {
  const columns = holdColumns(readings);
  if ('missing' in columns) return [];
  const blocks = blocksOf(readings, columns);
  const largestFlowM3PerS = blocks.reduce((largest, { means }) => Math.max(largest, means.flow || 0), 0);

  const holds: Stretch[] = [];
  let start = 0;
  while (start < blocks.length) {
    const stillEnd = endOfStillness(blocks, start, largestFlowM3PerS, search);
    const hold = withoutLead(readings, blocks, start, stillEnd, search);
    if (hold === null) {
      start += 1;
    } else {
      holds.push(hold);
      start = stillEnd;
    }
  }
  return holds;
}

/** Index behind the last block to which everything stands still from `start` on. */
function endOfStillness(
  blocks: readonly Block[],
  start: number,
  largestFlowM3PerS: number,
  search: HoldSearch,
): number {
  const lowest = new Map<HoldChannel, number>();
  const highest = new Map<HoldChannel, number>();
  for (let index = start; index < blocks.length; index += 1) {
    for (const channel of HOLD_CHANNELS) {
      const mean = blocks[index]?.means[channel] ?? Number.NaN;
      if (Number.isNaN(mean) || (channel === 'speed' && mean <= 0)) return index;
      const low = Math.min(mean, lowest.get(channel) ?? mean);
      const high = Math.max(mean, highest.get(channel) ?? mean);
      if (high - low > 2 * stillnessLimit(channel, (low + high) / 2, largestFlowM3PerS, search)) return index;
      lowest.set(channel, low);
      highest.set(channel, high);
    }
  }
  return blocks.length;
}

function withoutLead(
  readings: Readings,
  blocks: readonly Block[],
  start: number,
  end: number,
  { leadS, limits }: HoldSearch,
): Stretch | null {
  const firstBlock = blocks[start];
  const lastBlock = blocks[end - 1];
  if (firstBlock === undefined || lastBlock === undefined || end <= start) return null;
  const { elapsedS } = readings;
  const holdStartS = (elapsedS[firstBlock.first] ?? Number.NaN) + leadS;
  let first = firstBlock.first;
  while (first < lastBlock.end && (elapsedS[first] ?? Number.NaN) < holdStartS) first += 1;
  const endS = elapsedS[lastBlock.end - 1] ?? Number.NaN;
  const isLongEnough = endS - (elapsedS[first] ?? Number.NaN) >= limits.minDurationS;
  return isLongEnough ? { first, end: lastBlock.end } : null;
}

/**
 * The lead after a change: five time constants of the slowest channel that a set point moves, and never under a second.
 * Temperatures follow no set point; their drift is limited instead.
 *
 * @param channels - channels of the bench [-]
 * @returns lead [s]
 */
export function leadAfterChangeS(channels: readonly BenchChannel[]): number {
  const lagsS = channels.filter(({ channel }) => CHANNELS[channel].quantity !== 'temperature').map(({ lagS }) => lagS);
  return Math.max(1, ...lagsS.map((lagS) => 5 * lagS));
}

/** A channel's label in a sentence. */
export function channelLabels(channels: readonly ChannelName[]): string {
  return channels.map((channel) => CHANNELS[channel].label).join(', ');
}
