import { CHANNELS } from '../channels.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { siAtZeroReading, siDifferenceFrom, unitOf } from '../units.ts';

/** Id of the barometer's error, shared by every gauge pressure. */
export const BAROMETER_SOURCE_ID = 'setUp.barometer';

/**
 * The calibration errors of a channel as named sources: its gain (relative) and its offset (SI). They are common to
 * every reading of a run. A channel without a calibration has none; the run's findings say so.
 *
 * @param channel - channel of the bench record [-]
 * @returns none or two sources; gain in [1], offset in the SI unit of the channel [-]
 */
export function channelSources(channel: BenchChannel): readonly Source[] {
  const { calibration } = channel;
  if (calibration === null) return [];
  const label = CHANNELS[channel.channel].label;
  const common = { kind: 'calibration', degreesOfFreedom: null, pooledAs: null } as const;
  return [
    { ...common, id: `${channel.channel}.gain`, label: `${label}, gain of the instrument`, ...calibration.gain },
    {
      ...common,
      id: `${channel.channel}.offset`,
      label: `${label}, offset of the instrument`,
      shape: calibration.offset.shape,
      standardUncertainty: siDifferenceFrom(calibration.offset.standardUncertainty, unitOf(channel.unit)),
    },
  ];
}

/**
 * An indicated value with its sensitivities to the channel's calibration errors.
 * indicated = true (1 + gain) + offset in the channel's own unit, so ∂true/∂gain = −indicated, ∂true/∂offset = −1
 * to first order; a gauge pressure besides gains what the barometer gains.
 *
 * @param channel - channel of the bench record [-]
 * @param indicatedSi - what the channel said, absolute pressure for gauge channels [SI unit of the channel]
 * @param barometerPa - barometer used to make gauge pressures absolute [Pa]
 * @returns the value with sensitivities to `<channel>.gain`, `<channel>.offset` and the barometer [SI unit of the channel]
 *
 * Source: JCGM 100:2008, 5.1.3 (sensitivity coefficients); derivation above.
 */
export function channelValue(channel: BenchChannel, indicatedSi: number, barometerPa: number): Uncertain {
  const unit = unitOf(channel.unit);
  const sensitivities: Record<string, number> = {};
  if (channel.calibration !== null) {
    sensitivities[`${channel.channel}.gain`] = -(indicatedSi - siAtZeroReading(unit, barometerPa));
    sensitivities[`${channel.channel}.offset`] = -1;
  }
  if (unit.isGauge) sensitivities[BAROMETER_SOURCE_ID] = 1;
  return { value: indicatedSi, sensitivities };
}
