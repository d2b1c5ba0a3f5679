import { mean, median } from 'simple-statistics';
import { no, type Outcome, yes } from '../outcome.ts';
import { QUALITY, type Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Measured } from '../records/fields.ts';
import type { DryLiftRefusal } from '../result.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { PRIMED_CRITERION } from './primedCriterion.ts';

/** Priming as it was found; times in the run's elapsed time. */
export type FoundPriming = {
  readonly motorStartS: number;
  /** Mean speed over the second half of the start [rev/s]. */
  readonly speedRevPerS: number;
  readonly arrival:
    | { readonly primed: true; readonly sustainedDeliveryS: number; readonly primingTimeS: Uncertain }
    | { readonly primed: false; readonly watchedForS: number };
  readonly sources: readonly Source[];
};

/** Over this long after the meter's crossing its flow is averaged, to say how fast the line before it filled [s]. */
const FILL_FLOW_S = 1;

/** The shaft counts as turning from this share of its running speed on; the start is then found by going back along the ramp. */
const RAMP_LOW = 0.1;
const RAMP_HIGH = 0.5;

/** Delay of a lagging channel at half of a rise, as a share of its stated lag: 0.7 for one lag, 0.84 for two alike, 1 for a slow rise. */
const LAG_DELAY_SHARE = 0.85;
const LAG_DELAY_HALF_WIDTH_SHARE = 0.2;

type Series = { readonly timesS: readonly number[]; readonly values: readonly number[] };

/** Good values with their times; none where the bench has no such channel. */
function goodSeries(readings: Readings, channel: 'speed' | 'flow'): Series {
  const column = readings.channels[channel];
  if (column === undefined) return { timesS: [], values: [] };
  const timesS: number[] = [];
  const values: number[] = [];
  for (const [index, quality] of column.quality.entries()) {
    if (quality !== QUALITY.good) continue;
    timesS.push(readings.elapsedS[index] ?? Number.NaN);
    values.push(column.values[index] ?? Number.NaN);
  }
  return { timesS, values };
}

function lagOf(bench: BenchRecord, channel: 'speed' | 'flow'): number {
  return bench.channels.find((entry) => entry.channel === channel)?.lagS ?? 0;
}

/** Time at which a series crosses a level upwards between two readings, by a straight line between them [s]. */
function crossingS(series: Series, index: number, level: number): number {
  const afterS = series.timesS[index] ?? Number.NaN;
  const after = series.values[index] ?? Number.NaN;
  const beforeS = series.timesS[index - 1];
  const before = series.values[index - 1];
  if (beforeS === undefined || before === undefined || before >= level || after <= before) return afterS;
  return beforeS + ((level - before) / (after - before)) * (afterS - beforeS);
}

/** First crossing of a level from which the series stays at or above it for a time; null if there is none. */
function sustainedCrossingS(series: Series, level: number, sustainedS: number): number | null {
  let startS: number | null = null;
  for (const [index, value] of series.values.entries()) {
    if (value < level) {
      startS = null;
      continue;
    }
    startS ??= crossingS(series, index, level);
    if ((series.timesS[index] ?? Number.NaN) - startS >= sustainedS) return startS;
  }
  return null;
}

/** Back along the ramp between a tenth and half of the speed to where it leaves zero, less the speed channel's lag [s]. */
function motorStartS(speed: Series, runningRevPerS: number, lagS: number): number | null {
  const low = speed.values.findIndex((value) => value >= RAMP_LOW * runningRevPerS);
  const high = speed.values.findIndex((value) => value >= RAMP_HIGH * runningRevPerS);
  if (low < 0 || high < 0) return null;
  const lowS = crossingS(speed, low, RAMP_LOW * runningRevPerS);
  const highS = crossingS(speed, high, RAMP_HIGH * runningRevPerS);
  return lowS - ((highS - lowS) * RAMP_LOW) / (RAMP_HIGH - RAMP_LOW) - lagS;
}

/**
 * Finds motor start and sustained delivery in a dry start, by the criterion of primedCriterion.ts. The meter sees oil when the
 * line before it is full and with its own lag: both are taken off, so that the time is that of the pump's outlet.
 *
 * @param readings - the run; speed and flow are needed [n readings, oldest first]
 * @param bench - bench record: stated lags of speed and flow [-]
 * @param sweptVolumeM3PerRev - V_g of the pump: what counts as delivery [m³/rev]
 * @param deliveryLineVolume - volume between outlet and flow meter, empty at the start [m³]
 * @returns motor start and, where oil came, the priming time with its uncertainty; or why neither can be told [s]
 */
export function findPriming(
  readings: Readings,
  bench: BenchRecord,
  sweptVolumeM3PerRev: number,
  deliveryLineVolume: Measured,
): Outcome<FoundPriming, DryLiftRefusal> {
  const speed = goodSeries(readings, 'speed');
  const flow = goodSeries(readings, 'flow');
  for (const [channel, series] of [
    ['speed', speed],
    ['flow', flow],
  ] as const) {
    if (series.values.length < 3) {
      return no({
        code: 'CHANNEL_MISSING',
        channel,
        text: `A dry start cannot be read without the channel '${channel}'.`,
      });
    }
  }

  const fastestRevPerS = Math.max(...speed.values);
  const lastS = speed.timesS.at(-1) ?? Number.NaN;
  if (!(fastestRevPerS > 0.1)) {
    return no({ code: 'NO_MOTOR_START', text: 'The shaft never turned: no motor start in the record.' });
  }
  const runningRevPerS = median(speed.values.filter((value) => value > 0.5 * fastestRevPerS));
  if ((speed.values[0] ?? 0) > RAMP_LOW * runningRevPerS) {
    return no({
      code: 'ALREADY_RUNNING',
      text: 'The shaft was already turning at the first reading: start the recording first, then the motor.',
    });
  }
  const startS = motorStartS(speed, runningRevPerS, lagOf(bench, 'speed'));
  if (startS === null) {
    return no({
      code: 'NO_MOTOR_START',
      text: 'The shaft never reached a steady speed: no motor start in the record.',
    });
  }

  const levelM3PerS = PRIMED_CRITERION.flowShare * sweptVolumeM3PerRev * runningRevPerS;
  const crossing = sustainedCrossingS(flow, levelM3PerS, PRIMED_CRITERION.sustainedS);
  if (crossing !== null && crossing <= startS) {
    return no({
      code: 'FLOW_BEFORE_START',
      text: 'Oil was flowing before the motor started: the pump was not dry, or the flow channel has an offset.',
    });
  }
  const common = { motorStartS: startS, speedRevPerS: runningRevPerS };
  if (crossing === null) {
    return yes({ ...common, arrival: { primed: false, watchedForS: lastS - startS }, sources: [] });
  }

  const flowLagS = lagOf(bench, 'flow');
  const fillPerM3 = 1 / meanAfter(flow, crossing, FILL_FLOW_S);
  const deliveryS = crossing - LAG_DELAY_SHARE * flowLagS - deliveryLineVolume.value * fillPerM3;
  const intervalS = median(flow.timesS.slice(1).map((timeS, index) => timeS - (flow.timesS[index] ?? timeS)));
  const sources: readonly Source[] = [
    ...timingSources(intervalS, flowLagS, lagOf(bench, 'speed')),
    {
      ...CALIBRATION,
      id: DELIVERY_LINE_SOURCE_ID,
      label: 'volume between outlet and flow meter',
      standardUncertainty: deliveryLineVolume.standardUncertainty,
      shape: 'normal',
    },
  ];
  return yes({
    ...common,
    arrival: {
      primed: true,
      sustainedDeliveryS: deliveryS,
      primingTimeS: {
        value: deliveryS - startS,
        sensitivities: Object.fromEntries(
          sources.map(({ id }) => [id, id === DELIVERY_LINE_SOURCE_ID ? -fillPerM3 : 1]),
        ),
      },
    },
    sources,
  });
}

const DELIVERY_LINE_SOURCE_ID = 'setUp.deliveryLineVolume';
const CALIBRATION = { kind: 'calibration', degreesOfFreedom: null, pooledAs: null } as const;

/** Mean of a series over a time from an instant on; it was sustained, so it is above the level [unit of the series]. */
function meanAfter(series: Series, fromS: number, durationS: number): number {
  const values = series.values.filter((_, index) => {
    const sinceS = (series.timesS[index] ?? Number.NaN) - fromS;
    return sinceS >= 0 && sinceS <= durationS;
  });
  return mean(values);
}

function timingSources(intervalS: number, flowLagS: number, speedLagS: number): readonly Source[] {
  const rectangular = (id: string, label: string, halfWidthS: number): Source => ({
    ...CALIBRATION,
    id,
    label,
    standardUncertainty: halfWidthS / Math.sqrt(3),
    shape: 'rectangular',
  });
  return [
    rectangular('timing.motorStart', 'motor start, between two readings and along the ramp', intervalS + speedLagS / 2),
    rectangular('timing.delivery', 'sustained delivery, between two readings', intervalS),
    rectangular('timing.flowLag', 'lag of the flow meter', LAG_DELAY_HALF_WIDTH_SHARE * flowLagS),
  ];
}
