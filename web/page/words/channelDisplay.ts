import { CHANNELS, type ChannelName } from '../../../analysis/channels.ts';
import { printFixed } from '../../../analysis/formatStated.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';

/** How a channel is shown: its short name, its unit and as many decimals as a live reading is worth. */
type ChannelDisplay = {
  readonly name: string;
  readonly unitSymbol: string;
  readonly decimals: number;
  /** Least height of a plot's scale, in the unit: noise is not blown up to fill it. */
  readonly leastSpan: number;
};

export const CHANNEL_DISPLAY: Readonly<Record<ChannelName, ChannelDisplay>> = {
  suctionPressure: { name: 'suction', unitSymbol: 'bar(a)', decimals: 3, leastSpan: 0.1 },
  deliveryPressure: { name: 'delivery', unitSymbol: 'bar(g)', decimals: 2, leastSpan: 0.5 },
  flow: { name: 'flow', unitSymbol: 'l/min', decimals: 2, leastSpan: 1 },
  speed: { name: 'speed', unitSymbol: 'r/min', decimals: 0, leastSpan: 40 },
  oilTemperature: { name: 'oil at the inlet', unitSymbol: 'degC', decimals: 1, leastSpan: 2 },
  caseTemperature: { name: 'case', unitSymbol: 'degC', decimals: 1, leastSpan: 2 },
  torque: { name: 'torque', unitSymbol: 'N m', decimals: 2, leastSpan: 1 },
  motorPower: { name: 'motor power', unitSymbol: 'kW', decimals: 3, leastSpan: 0.1 },
  meterTemperature: { name: 'oil at the meter', unitSymbol: 'degC', decimals: 1, leastSpan: 2 },
  meterPressure: { name: 'at the meter', unitSymbol: 'bar(g)', decimals: 2, leastSpan: 0.2 },
  externalDrain: { name: 'drain', unitSymbol: 'l/min', decimals: 3, leastSpan: 0.1 },
  ambientTemperature: { name: 'ambient', unitSymbol: 'degC', decimals: 1, leastSpan: 2 },
  barometer: { name: 'barometer', unitSymbol: 'mbar(a)', decimals: 1, leastSpan: 5 },
  tankLevel: { name: 'tank level', unitSymbol: 'mm', decimals: 0, leastSpan: 20 },
};

/** The order in which a fitter looks at them. */
export const CHANNEL_ORDER: readonly ChannelName[] = [
  'speed',
  'deliveryPressure',
  'flow',
  'suctionPressure',
  'oilTemperature',
  'caseTemperature',
  'torque',
  'motorPower',
  'externalDrain',
  'meterTemperature',
  'meterPressure',
  'ambientTemperature',
  'barometer',
  'tankLevel',
];

/** Full name of a channel, for tables and for those who hear the page. */
export function channelLabel(channel: ChannelName): string {
  return CHANNELS[channel].label;
}

/** A channel's SI value in the unit it is shown in. */
export function shownValue(channel: ChannelName, si: number, barometerPa: number): number {
  return readingFrom(si, unitOf(CHANNEL_DISPLAY[channel].unitSymbol), barometerPa);
}

/** The same with the channel's decimals, a dash where it is missing. */
export function shownText(channel: ChannelName, si: number | null, barometerPa: number): string {
  return si === null ? '–' : printFixed(shownValue(channel, si, barometerPa), CHANNEL_DISPLAY[channel].decimals);
}
