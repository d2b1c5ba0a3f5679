import { channelValue } from '../calibration/channelSources.ts';
import { CHANNELS, type ChannelName } from '../channels.ts';
import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { ZeroCheck } from '../records/runRecord.ts';
import { effectiveCount, varianceOfMean } from '../uncertainty/effectiveReadings.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { siDifferenceFrom, unitOf } from '../units.ts';
import { channelSeries } from './channelSeries.ts';
import type { Stretch } from './holdSearch.ts';
import { straightDrift } from './straightDrift.ts';

/** A channel's mean over a hold. */
export type ChannelMean = {
  readonly value: Uncertain;
  /** The scatter of this mean, a random source of this hold alone. */
  readonly source: Source;
  readonly effectiveCount: number;
  readonly wildCount: number;
  /** Straight-line change from the hold's beginning to its end, in SI; null where there is nothing to draw a line through. */
  readonly change: { readonly value: number; readonly standardUncertainty: number } | null;
};

/** What a channel's readings are read against. */
export type MeasuringConditions = {
  readonly bench: BenchRecord;
  readonly barometerPa: number;
  /** Null: none was taken. */
  readonly zeroCheck: ZeroCheck | null;
};

/** A line through rounded constants has a slope of the order of the arithmetic's own rounding; it is no drift [1]. */
const ARITHMETIC = 1e-12;

/**
 * Mean of a channel over a hold. Three things make its random part: the variance of the mean of its correlated readings;
 * half a step of rounding either way, rectangular and alike in every reading; and, for a sensor with a known lag, the
 * uncertainty of what the lag hides.
 *
 * A first-order sensor obeys τ dx/dt = true − x, so true = x + τ dx/dt exactly: the mean is moved by τ times the rate of the
 * straight line through the hold. After a step of the oil's temperature this finds the true one while a slow thermometer
 * still creeps towards it; in a steady drift the sensor's rate is the true one and its reading late by τ. A drift within
 * the limits is not taken out of the scatter: its readings remember one another, count as few, and so widen the mean.
 *
 * @param readings - the run [n readings, oldest first]
 * @param stretch - the hold [-]
 * @param holdNumber - number of the hold, counted from 1 [-]
 * @param channel - which channel; the bench and the readings have it [-]
 * @param conditions - bench record in force, barometer and zero check of the run [-, Pa, -]
 * @param limitAt - stillness limit at a value of the channel, 0 where it has none [SI unit of the channel]
 * @returns mean with its sensitivities to the calibration and to its own scatter; null where less than half of the hold's
 *   readings are good [SI unit of the channel]
 * @throws RangeError if bench or readings lack the channel
 *
 * Source: JCGM 100:2008, 4.2 (type A) with the effective number of independent readings for correlated ones, F.2.2.1
 * (resolution); the lag derived here.
 */
export function channelMean(
  readings: Readings,
  stretch: Stretch,
  holdNumber: number,
  channel: ChannelName,
  conditions: MeasuringConditions,
  limitAt: (value: number) => number,
): ChannelMean | null {
  const { bench, barometerPa, zeroCheck } = conditions;
  const entry = bench.channels.find((candidate) => candidate.channel === channel);
  if (entry === undefined) throw new RangeError(`bench: ${bench.id} has no channel ${channel}`);
  const column = readings.channels[channel];
  if (column === undefined) throw new RangeError(`readings: no channel ${channel}`);
  const { elapsedS } = readings;
  const series = channelSeries(column, elapsedS, stretch.first, stretch.end, limitAt);
  if (series === null) return null;
  const ofMean = varianceOfMean(series.groups);
  const effective = effectiveCount(series.count, series.variance, ofMean);
  const resolution = siDifferenceFrom(entry.resolution, unitOf(entry.unit));
  // The sample variance where there are few readings: n − 1, as for independent ones.
  const scatter = series.count > 1 ? (series.variance * series.count) / (series.count - 1) / effective : 0;
  const durationS = (elapsedS[stretch.end - 1] ?? Number.NaN) - (elapsedS[stretch.first] ?? Number.NaN);
  const drift = straightDrift(series.groupAtS, series.groups);
  const lagUncertainty = entry.lagS * (drift?.standardUncertainty ?? 0);
  const source: Source = {
    id: `hold.${holdNumber}.${channel}`,
    label: `hold ${holdNumber}, ${CHANNELS[channel].label}, scatter of the readings`,
    kind: 'random',
    standardUncertainty: Math.sqrt(scatter + resolution ** 2 / 12 + lagUncertainty ** 2),
    degreesOfFreedom: Math.max(1, Math.min(effective, series.groups.length) - 1),
    shape: 'normal',
    pooledAs: null,
  };
  const indicated = channelValue(entry, series.mean + entry.lagS * (drift?.ratePerS ?? 0), barometerPa, zeroCheck);
  const change = (drift?.ratePerS ?? 0) * durationS;
  const isDrift = drift !== null && Math.abs(change) > ARITHMETIC * Math.abs(series.mean);
  return {
    value: { value: indicated.value, sensitivities: { ...indicated.sensitivities, [source.id]: 1 } },
    source,
    effectiveCount: effective,
    wildCount: series.wildCount,
    // The first and the last reading are each rounded by half a step either way: 2 · step²/12.
    change: isDrift
      ? {
          value: change,
          standardUncertainty: Math.hypot(drift.standardUncertainty * durationS, resolution / Math.sqrt(6)),
        }
      : null,
  };
}
