import { signal } from '@preact/signals';
import type { ChannelName } from '../../../analysis/channels.ts';
import { CHANNEL_COLOR_PROPERTY } from './palette.ts';

/** Canvas takes no colours from the style sheet: the ones it needs, read from it, anew when paper turns to ink. */
export type PaperColors = {
  readonly ink: string;
  readonly faint: string;
  readonly rule: string;
  readonly tint: string;
  readonly channels: Readonly<Record<ChannelName, string>>;
};

function readColors(): PaperColors {
  const style = getComputedStyle(document.documentElement);
  const color = (name: string): string => style.getPropertyValue(name).trim();
  return {
    ink: color('--ink'),
    faint: color('--faint'),
    rule: color('--rule'),
    tint: color('--tint'),
    channels: {
      speed: color(CHANNEL_COLOR_PROPERTY.speed),
      deliveryPressure: color(CHANNEL_COLOR_PROPERTY.deliveryPressure),
      flow: color(CHANNEL_COLOR_PROPERTY.flow),
      suctionPressure: color(CHANNEL_COLOR_PROPERTY.suctionPressure),
      oilTemperature: color(CHANNEL_COLOR_PROPERTY.oilTemperature),
      caseTemperature: color(CHANNEL_COLOR_PROPERTY.caseTemperature),
      torque: color(CHANNEL_COLOR_PROPERTY.torque),
      motorPower: color(CHANNEL_COLOR_PROPERTY.motorPower),
      externalDrain: color(CHANNEL_COLOR_PROPERTY.externalDrain),
      meterTemperature: color(CHANNEL_COLOR_PROPERTY.meterTemperature),
      meterPressure: color(CHANNEL_COLOR_PROPERTY.meterPressure),
      ambientTemperature: color(CHANNEL_COLOR_PROPERTY.ambientTemperature),
      barometer: color(CHANNEL_COLOR_PROPERTY.barometer),
      tankLevel: color(CHANNEL_COLOR_PROPERTY.tankLevel),
    },
  };
}

export const paperColors = signal<PaperColors>(readColors());

window.matchMedia('(prefers-color-scheme: dark)').addEventListener('change', () => {
  paperColors.value = readColors();
});
