import { mean, sampleVariance } from 'simple-statistics';
import { channelValue } from '../calibration/channelSources.ts';
import { CHANNELS, type ChannelName } from '../channels.ts';
import { oilStateAt } from '../oil/oilStateAt.ts';
import { goodValues, type Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { effectiveReadingCount } from '../uncertainty/effectiveReadings.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { siDifferenceFrom, unitOf } from '../units.ts';
import { HOLD_CHANNELS, type HoldChannel, holdColumns, type Stretch } from './findHolds.ts';

/** A hold averaged: what stood still, each value with its sensitivities to named sources. */
export type HoldState = {
  /** Counted from 1. */
  readonly number: number;
  readonly startS: number;
  readonly endS: number;
  readonly readingCount: number;
  readonly effectiveReadingCount: number;
  readonly speedRevPerS: Uncertain;
  readonly suctionPressurePa: Uncertain;
  readonly deliveryPressurePa: Uncertain;
  readonly differentialPressurePa: Uncertain;
  /** q_2: flow at the outlet port. */
  readonly flowM3PerS: Uncertain;
  /** q_1 = q_2 ρ_2/ρ_1 + external drain: what the pump drew in, at the density of the inlet; the slip law speaks of it. */
  readonly inletFlowM3PerS: Uncertain;
  /** Null where the bench has no such channel; likewise below. */
  readonly externalDrainM3PerS: Uncertain | null;
  readonly torqueNM: Uncertain | null;
  readonly motorPowerW: Uncertain | null;
  readonly caseTemperatureK: Uncertain | null;
  readonly oilTemperatureK: Uncertain;
  readonly dynamicViscosityPaS: Uncertain;
  readonly densityKgPerM3: Uncertain;
  /** The scatter of this hold's means, a random source a channel. */
  readonly sources: readonly Source[];
  /** Channels that still moved in one direction, within their limits but beyond their scatter. */
  readonly drifts: readonly HoldDrift[];
  /** Why the hold takes no part in the fit; null: it does. */
  readonly leftOut: LeftOut | null;
};

/** Change of a channel from the beginning to the end of a hold, by a straight line, in SI. */
export type HoldDrift = {
  readonly channel: HoldChannel;
  readonly change: number;
  readonly standardUncertainty: number;
};

/** 'person': taken out by hand; 'filling': beyond the speed at which the pump still fills; 'relief': the valve was open. */
export type LeftOut = { readonly cause: 'person' | 'filling' | 'relief'; readonly reason: string };

type ChannelMean = { readonly value: Uncertain; readonly source: Source; readonly effectiveCount: number };

function channelMean(
  holdNumber: number,
  channel: HoldChannel,
  values: number[],
  bench: BenchRecord,
  barometerPa: number,
): ChannelMean {
  const entry = bench.channels.find((candidate) => candidate.channel === channel);
  if (entry === undefined) throw new RangeError(`bench: ${bench.id} has no channel ${channel}`);
  const effectiveCount = effectiveReadingCount(values);
  // A reading is rounded to the resolution: a rectangular error of half a step either way.
  const resolution = siDifferenceFrom(entry.resolution, unitOf(entry.unit));
  const variance = (values.length > 1 ? sampleVariance(values) : 0) / effectiveCount + resolution ** 2 / 12;
  const source: Source = {
    id: `hold.${holdNumber}.${channel}`,
    label: `hold ${holdNumber}, ${CHANNELS[channel].label}, scatter of the readings`,
    kind: 'random',
    standardUncertainty: Math.sqrt(variance),
    degreesOfFreedom: Math.max(1, effectiveCount - 1),
    shape: 'normal',
    pooledAs: null,
  };
  const indicated = channelValue(entry, mean(values), barometerPa);
  return {
    value: { value: indicated.value, sensitivities: { ...indicated.sensitivities, [source.id]: 1 } },
    source,
    effectiveCount,
  };
}

/**
 * Averages one hold and gives each mean its sensitivities: the calibration errors of its channel, common to all holds,
 * and the scatter of its readings, its own.
 *
 * @param readings - the run [n readings, oldest first]
 * @param stretch - the hold, as found by findHolds [-]
 * @param holdNumber - number of the hold, counted from 1 [-]
 * @param bench - bench record in force [-]
 * @param oil - oil of the run [-]
 * @param barometerPa - barometer of the run [Pa]
 * @returns means in SI; viscosity and density are those at the hold's own inlet temperature [-]
 * @throws RangeError if a hold channel is missing
 *
 * Source: JCGM 100:2008, 4.2 (type A) with the effective number of independent readings for correlated ones.
 */
export function holdState(
  readings: Readings,
  stretch: Stretch,
  holdNumber: number,
  bench: BenchRecord,
  oil: OilRecord,
  barometerPa: number,
): HoldState {
  const columns = holdColumns(readings);
  if ('missing' in columns) throw new RangeError(`readings: no channel ${columns.missing.join(', ')}`);
  const meanOf = (channel: HoldChannel): ChannelMean =>
    channelMean(holdNumber, channel, goodValues(columns[channel], stretch.first, stretch.end), bench, barometerPa);
  const means: Readonly<Record<HoldChannel, ChannelMean>> = {
    speed: meanOf('speed'),
    deliveryPressure: meanOf('deliveryPressure'),
    suctionPressure: meanOf('suctionPressure'),
    flow: meanOf('flow'),
    oilTemperature: meanOf('oilTemperature'),
  };
  const delivery = means.deliveryPressure.value;
  const suction = means.suctionPressure.value;
  const temperature = means.oilTemperature.value;
  const oilState = oilStateAt(oil, temperature);
  return {
    number: holdNumber,
    startS: readings.elapsedS[stretch.first] ?? Number.NaN,
    endS: readings.elapsedS[stretch.end - 1] ?? Number.NaN,
    readingCount: stretch.end - stretch.first,
    effectiveReadingCount: means.flow.effectiveCount,
    speedRevPerS: means.speed.value,
    suctionPressurePa: suction,
    deliveryPressurePa: delivery,
    differentialPressurePa: combine(delivery.value - suction.value, [
      { input: delivery, derivative: 1 },
      { input: suction, derivative: -1 },
    ]),
    flowM3PerS: means.flow.value,
    inletFlowM3PerS: means.flow.value,
    externalDrainM3PerS: null,
    torqueNM: null,
    motorPowerW: null,
    caseTemperatureK: null,
    oilTemperatureK: temperature,
    dynamicViscosityPaS: oilState.dynamicViscosityPaS,
    densityKgPerM3: oilState.densityKgPerM3,
    sources: HOLD_CHANNELS.map((channel) => means[channel].source),
    drifts: [],
    leftOut: null,
  };
}

/** Channels that a bench must have for holds to be found. */
export function missingHoldChannels(readings: Readings): readonly ChannelName[] {
  const columns = holdColumns(readings);
  return 'missing' in columns ? columns.missing : [];
}
