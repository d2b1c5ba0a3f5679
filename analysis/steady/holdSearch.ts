import { CHANNELS, type ChannelName } from '../channels.ts';
import type { Column, Readings } from '../readings.ts';
import type { BenchChannel, HoldLimits } from '../records/benchRecord.ts';

/** Channels that must stand still in a hold. */
export const HOLD_CHANNELS = ['speed', 'deliveryPressure', 'suctionPressure', 'flow', 'oilTemperature'] as const;
export type HoldChannel = (typeof HOLD_CHANNELS)[number];

/** A value for each hold channel. */
export function mapHoldChannels<Value>(of: (channel: HoldChannel) => Value): Readonly<Record<HoldChannel, Value>> {
  return {
    speed: of('speed'),
    deliveryPressure: of('deliveryPressure'),
    suctionPressure: of('suctionPressure'),
    flow: of('flow'),
    oilTemperature: of('oilTemperature'),
  };
}

/** A stretch of readings, [first, end). */
export type Stretch = { readonly first: number; readonly end: number };

export type HoldSearch = {
  readonly limits: HoldLimits;
  /** Turns an absolute pressure limit into the two-bar rule of the limits [Pa]. */
  readonly barometerPa: number;
  /** Time after a change that does not count, so that the slowest channel has followed [s]. */
  readonly leadS: number;
};

/** A pressure from here up is judged relatively, below absolutely; in the manner of ISO 4409 [Pa gauge]. */
const RELATIVE_PRESSURE_FROM_PA = 2e5;

/** Flow far below the run's largest is judged against this share of the largest: a share of nothing is nothing [1]. */
const SMALL_FLOW_SHARE = 0.1;

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

export type HoldColumns = Readonly<Record<HoldChannel, Column>>;

/** The columns of the hold channels, or the names of those that the readings lack. */
export function holdColumns(readings: Readings): HoldColumns | { readonly missing: readonly ChannelName[] } {
  const { speed, deliveryPressure, suctionPressure, flow, oilTemperature } = readings.channels;
  if (speed && deliveryPressure && suctionPressure && flow && oilTemperature) {
    return { speed, deliveryPressure, suctionPressure, flow, oilTemperature };
  }
  return { missing: HOLD_CHANNELS.filter((channel) => readings.channels[channel] === undefined) };
}

/**
 * The lead after a change: five time constants of the slowest channel that a set point moves, and never under a second.
 * A first-order sensor has then followed all but e⁻⁵ = 0.7 % of the step. Temperatures follow no set point and may be far
 * slower: their drift is limited instead, and what their lag hides is made good in the hold's mean (channelMean).
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
