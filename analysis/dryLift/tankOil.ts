import { mean } from 'simple-statistics';
import { channelValue } from '../calibration/channelSources.ts';
import { goodValues, type Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';

/** Oil of a bench that does not measure it: a workshop's, 10 to 30 °C; common practice, no source [K]. */
const UNMEASURED = { temperatureK: 293.15, halfWidthK: 10 } as const;

const UNMEASURED_SOURCE: Source = {
  id: 'oil.unmeasuredTemperature',
  label: 'oil temperature, not measured',
  kind: 'calibration',
  standardUncertainty: UNMEASURED.halfWidthK / Math.sqrt(3),
  degreesOfFreedom: null,
  shape: 'rectangular',
  pooledAs: null,
};

/**
 * Temperature of the oil in the pipe: that of the inlet channel; 20 °C give or take ten where the bench has none.
 *
 * @param run - bench and zero check [-]
 * @param readings - its readings [n readings]
 * @returns temperature with its sensitivities, and sources beyond those of the channels [K]
 */
export function tankOilTemperature(
  run: Pick<RunRecord, 'bench' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
): { readonly temperatureK: Uncertain; readonly sources: readonly Source[] } {
  const column = readings.channels.oilTemperature;
  const channel = run.bench.channels.find((entry) => entry.channel === 'oilTemperature');
  const good = column === undefined ? [] : goodValues(column);
  if (channel === undefined || good.length === 0) {
    return {
      temperatureK: { value: UNMEASURED.temperatureK, sensitivities: { [UNMEASURED_SOURCE.id]: 1 } },
      sources: [UNMEASURED_SOURCE],
    };
  }
  return {
    temperatureK: channelValue(channel, mean(good), run.setUp.barometerPa.value, run.zeroCheck),
    sources: [],
  };
}
