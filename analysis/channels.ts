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
  motorPower: { quantity: 'power', column: 'motorPowerW', label: 'motor power' },
  meterTemperature: {
    quantity: 'temperature',
    column: 'meterTemperatureK',
    label: 'oil temperature at the flow meter',
  },
  meterPressure: { quantity: 'pressure', column: 'meterPressurePa', label: 'pressure at the flow meter' },
  externalDrain: { quantity: 'flow', column: 'externalDrainM3PerS', label: 'external drain' },
  ambientTemperature: { quantity: 'temperature', column: 'ambientTemperatureK', label: 'ambient temperature' },
  barometer: { quantity: 'pressure', column: 'barometerPa', label: 'barometer' },
  tankLevel: { quantity: 'length', column: 'tankLevelM', label: 'tank level' },
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
  'motorPower',
  'meterTemperature',
  'meterPressure',
  'externalDrain',
  'ambientTemperature',
  'barometer',
  'tankLevel',
];

export function isChannelName(name: string): name is ChannelName {
  return Object.hasOwn(CHANNELS, name);
}
