import type { Quantity } from './units.ts';

/**
 * The channels a bench can have, each with the column it fills in the readings. Names are fixed: bench records,
 * CSV headings and plots all use them.
 */
export const CHANNELS = {
  suctionPressure: { quantity: 'pressure', column: 'suctionPressurePa', label: 'suction pressure' },
  deliveryPressure: { quantity: 'pressure', column: 'deliveryPressurePa', label: 'delivery pressure' },
  flow: { quantity: 'flow', column: 'flowM3PerS', label: 'flow' },
  speed: { quantity: 'speed', column: 'speedRevPerS', label: 'speed' },
  oilTemperature: { quantity: 'temperature', column: 'oilTemperatureK', label: 'oil temperature at the inlet' },
  caseTemperature: { quantity: 'temperature', column: 'caseTemperatureK', label: 'case temperature' },
  torque: { quantity: 'torque', column: 'torqueNM', label: 'shaft torque' },
} as const satisfies Readonly<Record<string, { quantity: Quantity; column: string; label: string }>>;

export type ChannelName = keyof typeof CHANNELS;

export const CHANNEL_NAMES: readonly ChannelName[] = [
  'suctionPressure',
  'deliveryPressure',
  'flow',
  'speed',
  'oilTemperature',
  'caseTemperature',
  'torque',
];

export function isChannelName(name: string): name is ChannelName {
  return Object.hasOwn(CHANNELS, name);
}
