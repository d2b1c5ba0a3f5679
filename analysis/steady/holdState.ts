import { atInletHeight } from '../calibration/tappingHead.ts';
import type { ChannelName } from '../channels.ts';
import { oilStateAt } from '../oil/oilStateAt.ts';
import type { Readings } from '../readings.ts';
import type { BenchChannel, BenchRecord } from '../records/benchRecord.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { ZeroCheck } from '../records/runRecord.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { type ChannelMean, channelMean } from './channelMean.ts';
import {
  HOLD_CHANNELS,
  type HoldChannel,
  holdColumns,
  mapHoldChannels,
  type Stretch,
  stillnessLimit,
} from './holdSearch.ts';
import { balancedFlows } from './massBalance.ts';

/** A hold averaged: what stood still, each value with its sensitivities to named sources. */
export type HoldState = {
  /** Counted from 1. */
  readonly number: number;
  readonly startS: number;
  readonly endS: number;
  readonly readingCount: number;
  readonly effectiveReadingCount: number;
  /** Values left out as wild, over all channels. */
  readonly wildReadingCount: number;
  readonly speedRevPerS: Uncertain;
  readonly suctionPressurePa: Uncertain;
  readonly deliveryPressurePa: Uncertain;
  readonly differentialPressurePa: Uncertain;
  /** q_2: flow at the outlet port. */
  readonly flowM3PerS: Uncertain;
  /** q_1 = q_2 ρ_2/ρ_1 + external drain: what the pump drew in, at the density of the inlet; the slip law speaks of it. */
  readonly inletFlowM3PerS: Uncertain;
  /** Null where the bench has no such channel, or less than half of the hold's readings of it are good; likewise below. */
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
type HoldDrift = {
  readonly channel: HoldChannel;
  readonly change: number;
  readonly standardUncertainty: number;
};

/** 'person': taken out by hand; 'filling': beyond the speed at which the pump still fills; 'relief': the valve was open. */
export type LeftOut = { readonly cause: 'person' | 'filling' | 'relief'; readonly reason: string };

/** A channel that still moved: its change is more than twice its standard uncertainty [1]. */
const DRIFT_FACTOR = 2;

/** Channels that a bench may have besides; those of the mass balance and those that are averaged alone. */
const FURTHER_CHANNELS = [
  'externalDrain',
  'meterTemperature',
  'meterPressure',
  'torque',
  'motorPower',
  'caseTemperature',
] as const;
type FurtherChannel = (typeof FURTHER_CHANNELS)[number];

function benchChannel(bench: BenchRecord, channel: ChannelName): BenchChannel | undefined {
  return bench.channels.find((candidate) => candidate.channel === channel);
}

function isRecorded(readings: Readings, bench: BenchRecord, channel: ChannelName): boolean {
  return readings.channels[channel] !== undefined && benchChannel(bench, channel) !== undefined;
}

function driftsOf(means: Readonly<Record<HoldChannel, ChannelMean>>): readonly HoldDrift[] {
  return HOLD_CHANNELS.flatMap((channel): HoldDrift[] => {
    const { change } = means[channel];
    if (change === null || Math.abs(change.value) <= DRIFT_FACTOR * change.standardUncertainty) return [];
    return [{ channel, change: change.value, standardUncertainty: change.standardUncertainty }];
  });
}

/**
 * Averages one hold and gives each mean its sensitivities: the calibration errors of its channel, common to all holds,
 * and the scatter of its readings, its own (channelMean). Pressures are brought to the inlet's height with the density of the
 * oil at the inlet, flows to the ports (balancedFlows).
 *
 * @param readings - the run [n readings, oldest first]
 * @param stretch - the hold, as found by findHolds [-]
 * @param holdNumber - number of the hold, counted from 1 [-]
 * @param bench - bench record in force [-]
 * @param oil - oil of the run [-]
 * @param barometerPa - barometer of the run [Pa]
 * @param zeroCheck - of the run; null where none was taken [-]
 * @returns means in SI; viscosity and density are those at the hold's own inlet temperature [-]
 * @throws RangeError if a hold channel is missing or has too few good readings
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
  zeroCheck: ZeroCheck | null = null,
): HoldState {
  const columns = holdColumns(readings);
  const flowChannel = benchChannel(bench, 'flow');
  const missing = 'missing' in columns ? columns.missing : flowChannel === undefined ? ['flow'] : [];
  if (flowChannel === undefined || missing.length > 0)
    throw new RangeError(`readings: no channel ${missing.join(', ')}`);

  const averaged = (channel: ChannelName, limitAt: (value: number) => number): ChannelMean | null =>
    channelMean(readings, stretch, holdNumber, channel, { bench, barometerPa, zeroCheck }, limitAt);
  const search = { limits: bench.holdLimits, barometerPa, leadS: 0 };
  const meanOf = (channel: HoldChannel): ChannelMean => {
    const mean = averaged(channel, (value) => stillnessLimit(channel, value, 0, search));
    if (mean === null) throw new RangeError(`readings: hold ${holdNumber} has too few good ones of ${channel}`);
    return mean;
  };
  const means = mapHoldChannels(meanOf);
  const further = new Map<FurtherChannel, ChannelMean>();
  for (const channel of FURTHER_CHANNELS) {
    const mean = isRecorded(readings, bench, channel) ? averaged(channel, () => 0) : null;
    if (mean !== null) further.set(channel, mean);
  }
  const furtherValue = (channel: FurtherChannel): Uncertain | null => further.get(channel)?.value ?? null;

  const temperature = means.oilTemperature.value;
  const oilAtInlet = oilStateAt(oil, temperature);
  const atInlet = (channel: 'deliveryPressure' | 'suctionPressure'): Uncertain => {
    const entry = benchChannel(bench, channel);
    const { value } = means[channel];
    return entry === undefined ? value : atInletHeight(value, entry, oilAtInlet.densityKgPerM3);
  };
  const delivery = atInlet('deliveryPressure');
  const suction = atInlet('suctionPressure');
  const flows = balancedFlows(
    {
      flowM3PerS: means.flow.value,
      channel: flowChannel,
      meterTemperatureK: furtherValue('meterTemperature'),
      meterPressurePa: furtherValue('meterPressure'),
      externalDrainM3PerS: furtherValue('externalDrain'),
    },
    { pressurePa: suction, temperatureK: temperature },
    delivery,
    oil,
    barometerPa,
  );
  const all = [...HOLD_CHANNELS.map((channel) => means[channel]), ...further.values()];
  return {
    number: holdNumber,
    startS: readings.elapsedS[stretch.first] ?? Number.NaN,
    endS: readings.elapsedS[stretch.end - 1] ?? Number.NaN,
    readingCount: stretch.end - stretch.first,
    effectiveReadingCount: means.flow.effectiveCount,
    wildReadingCount: all.reduce((sum, { wildCount }) => sum + wildCount, 0),
    speedRevPerS: means.speed.value,
    suctionPressurePa: suction,
    deliveryPressurePa: delivery,
    differentialPressurePa: combine(delivery.value - suction.value, [
      { input: delivery, derivative: 1 },
      { input: suction, derivative: -1 },
    ]),
    flowM3PerS: flows.outletM3PerS,
    inletFlowM3PerS: flows.inletM3PerS,
    externalDrainM3PerS: furtherValue('externalDrain'),
    torqueNM: furtherValue('torque'),
    motorPowerW: furtherValue('motorPower'),
    caseTemperatureK: furtherValue('caseTemperature'),
    oilTemperatureK: temperature,
    dynamicViscosityPaS: oilAtInlet.dynamicViscosityPaS,
    densityKgPerM3: oilAtInlet.densityKgPerM3,
    sources: all.map(({ source }) => source),
    drifts: driftsOf(means),
    leftOut: null,
  };
}

/** Channels that a bench must have for holds to be found. */
export function missingHoldChannels(readings: Readings): readonly ChannelName[] {
  const columns = holdColumns(readings);
  return 'missing' in columns ? columns.missing : [];
}
