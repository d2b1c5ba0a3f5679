import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { Measured } from '../../records/fields.ts';
import type { Source, Uncertain } from '../../uncertainty/source.ts';
import { PRIMED_CRITERION } from '../primedCriterion.ts';
import {
  atUpdates,
  type Course,
  courseBetween,
  readingIntervalS,
  sustainedCrossingS,
  valueAt,
  withoutSpikes,
} from './course.ts';
import { fillTimes, flowOnsets } from './flowOnset.ts';
import { timingSource } from './startEvent.ts';
import { unlagged, unlaggedHalfStretchS } from './unlagged.ts';

export type DeliveryEvents = {
  /** First oil at the outlet, were it but a burst. */
  readonly oilAtOutletS: Uncertain | null;
  readonly sustainedDeliveryS: Uncertain | null;
  /** Flow stood at the criterion when the motor stopped or the record ended, but not for long enough yet. */
  readonly wasRisingAtEnd: boolean;
  readonly sources: readonly Source[];
};

export type DeliverySetting = {
  readonly motorStartS: number;
  readonly runningRevPerS: number;
  /** V_g: what counts as delivery. */
  readonly sweptVolumeM3PerRev: number;
  /** Between outlet and meter, empty at the start. */
  readonly lineVolume: Measured;
  readonly flowLagS: number;
};

/** A stated lag, and the order of a meter that has several, are right to about this share [1]: common practice, no source. */
const LAG_HALF_WIDTH_SHARE = 0.2;
/** Oil is at the meter from this share of swept volume × speed on, and this many standard deviations of a dry meter. */
const FIRST_OIL_SHARE = 0.05;
const FIRST_OIL_DEVIATIONS = 6;
/** Foam: flow that came, and went again by this share of what the criterion asks for [1]. */
const FOAM_FALL = 0.4;
/** Oil that was at the meter so long before has filled the line [s]. */
const LINE_FULL_S = 0.5;
/** The flow between these times after the crossing is the full one: it was sustained so long [s]. */
const FULL_FLOW_S = { from: 1, until: PRIMED_CRITERION.sustainedS } as const;
/** So much before and after tells how the flow came to the meter [s]. */
const ONSET_S = 0.4;
/** The flow at the port rises for up to so long, gas being swept out with the oil: common practice, no source [s]. */
const PORT_RISE_S = 0.3;
/** Below this share of its speed the motor runs up or down [1]. */
const RUNNING_SHARE = 0.5;

const DELIVERY_LINE_SOURCE_ID = 'setUp.deliveryLineVolume';

/** Flow less what the criterion asks for at the speed of the moment. */
function excessFlow(flow: Course, speed: Course, setting: DeliverySetting): Course {
  const { sweptVolumeM3PerRev, runningRevPerS } = setting;
  return {
    timesS: flow.timesS,
    values: flow.values.map((value, index) => {
      const revPerS = Math.max(valueAt(speed, flow.timesS[index] ?? 0), RUNNING_SHARE * runningRevPerS);
      return value - PRIMED_CRITERION.flowShare * sweptVolumeM3PerRev * revPerS;
    }),
  };
}

/**
 * When the motor ran down for good.
 *
 * @param speed - of the shaft [s, rev/s]
 * @param runningRevPerS - its running speed [rev/s]
 * @param share - of that speed, below which it runs down: half, unless its first slowing counts [1]
 * @returns last reading at that share or more: the end of the record where it did not run down [s]
 */
export function runsUntilS(speed: Course, runningRevPerS: number, share = RUNNING_SHARE): number {
  const last = speed.values.findLastIndex((value) => value >= share * runningRevPerS);
  return speed.timesS[last] ?? Number.NEGATIVE_INFINITY;
}

function lineSource({ standardUncertainty }: Measured): Source {
  return {
    id: DELIVERY_LINE_SOURCE_ID,
    label: 'volume between outlet and flow meter',
    kind: 'calibration',
    standardUncertainty,
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
}

/** Whether a course has fallen by so much from the most it had been before. */
function hasFallen({ values }: Course, by: number): boolean {
  let most = Number.NEGATIVE_INFINITY;
  return values.some((value) => {
    most = Math.max(most, value);
    return value < most - by;
  });
}

type Met = { readonly atS: number; readonly fillPerM3: number; readonly rise: Source };

/** When the port met the criterion that the meter shows met at a crossing; first oil was at the meter from `firstS` on. */
function metAtPort(
  crossing: number,
  firstS: number | null,
  meter: {
    readonly running: Course;
    readonly shown: Course;
    readonly noiseM3PerS: number;
    readonly smearS: number;
    readonly intervalS: number;
  },
  setting: DeliverySetting,
): Met {
  const { lineVolume, flowLagS, sweptVolumeM3PerRev, runningRevPerS } = setting;
  const { running, shown, noiseM3PerS, smearS, intervalS } = meter;
  const levelM3PerS = PRIMED_CRITERION.flowShare * sweptVolumeM3PerRev * runningRevPerS;
  const rise = (halfWidthS: number): Source =>
    timingSource('timing.lineFilling', 'rise of the flow while the line filled', halfWidthS, 'random');
  // Oil at the meter well before, or that came and went: the line was full, and the meter showed what passed the port.
  const isLineFull =
    firstS === null ||
    crossing - firstS > LINE_FULL_S + flowLagS ||
    hasFallen(courseBetween(shown, firstS, crossing), FOAM_FALL * levelM3PerS);
  if (isLineFull) return { atS: crossing, fillPerM3: 0, rise: rise(0) };
  const settled = courseBetween(running, crossing + FULL_FLOW_S.from, crossing + FULL_FLOW_S.until).values;
  const fullM3PerS = Math.max(mean([...settled]), 1.02 * levelM3PerS);
  const slackS = 2 * intervalS + smearS;
  const onsets = flowOnsets(
    courseBetween(running, firstS - slackS - ONSET_S, crossing + ONSET_S + 2 * flowLagS),
    { lagS: flowLagS, noiseM3PerS, fullM3PerS },
    { fromS: firstS - slackS, untilS: crossing + intervalS },
  );
  const fillS = lineVolume.value / fullM3PerS;
  const met = onsets.map(({ atS, firstM3PerS, riseS }) => {
    const [onset, level] = [firstM3PerS / fullM3PerS, levelM3PerS / fullM3PerS];
    if (onset < level) return { atS: atS + riseS * Math.log((1 - onset) / (1 - level)), times: 0, halfWidthS: 0 };
    const { times, halfWidth } = fillTimes(onset, level, fillS > 0 ? riseS / fillS : 0);
    return { atS: atS - times * fillS, times, halfWidthS: halfWidth * fillS };
  });
  const [best] = met;
  if (best === undefined) return { atS: crossing, fillPerM3: 0, rise: rise(0) };
  const earliestS = Math.min(...met.map(({ atS, halfWidthS }) => atS - halfWidthS));
  const latestS = Math.max(...met.map(({ atS, halfWidthS }) => atS + halfWidthS));
  return {
    atS: best.atS,
    fillPerM3: best.times / fullM3PerS,
    rise: rise(Math.max(latestS - best.atS, best.atS - earliestS)),
  };
}

/** Scatter of the meter before the motor starts [m³/s]. */
function restNoise(flow: Course, motorStartS: number): number {
  const rest = [...courseBetween(flow, Number.NEGATIVE_INFINITY, motorStartS).values];
  return rest.length >= 3 ? sampleStandardDeviation(rest) : 0;
}

/**
 * First oil at the outlet and sustained delivery, from the flow meter. Its lag is taken off the readings; the line before it
 * is taken off where it was still filling: a meter behind a full line shows what passes the port. Dips and spikes of a
 * tenth of a second are the meter's.
 *
 * @param flow - of the meter [s, m³/s]
 * @param speed - of the shaft [s, rev/s]
 * @param setting - motor start [s], speed [rev/s], V_g [m³/rev], line [m³], lag [s]
 * @returns the two events; null where there is none [s]
 */
export function findDeliveryEvents(flow: Course, speed: Course, setting: DeliverySetting): DeliveryEvents {
  const { motorStartS, runningRevPerS, sweptVolumeM3PerRev, lineVolume, flowLagS } = setting;
  const untilS = runsUntilS(speed, runningRevPerS);
  const plain = withoutSpikes(flow, PRIMED_CRITERION.shortestDipS);
  const running = atUpdates(courseBetween(plain, Number.NEGATIVE_INFINITY, untilS), motorStartS, untilS);
  const intervalS = readingIntervalS(running.timesS);
  const smearS = unlaggedHalfStretchS(running, flowLagS);
  const shown = unlagged(running, flowLagS);
  const fullM3PerS = sweptVolumeM3PerRev * runningRevPerS;

  const firstLevel = Math.max(FIRST_OIL_SHARE * fullM3PerS, FIRST_OIL_DEVIATIONS * restNoise(shown, motorStartS));
  const aboveFirst = { timesS: shown.timesS, values: shown.values.map((value) => value - firstLevel) };
  const firstS = sustainedCrossingS(courseBetween(aboveFirst, motorStartS, untilS), PRIMED_CRITERION.shortestDipS);
  const excess = excessFlow(shown, speed, setting);
  const crossing = sustainedCrossingS(excess, PRIMED_CRITERION.sustainedS);

  const line = lineSource(lineVolume);
  const timing = [
    timingSource('timing.delivery', 'flow meter, between two readings', intervalS + smearS, 'random'),
    timingSource('timing.flowLag', 'lag of the flow meter', LAG_HALF_WIDTH_SHARE * flowLagS, 'calibration'),
  ];
  const sources: Source[] = [...timing, line];
  const timed = (value: number, fillPerM3: number, own: Source): Uncertain => {
    sources.push(own);
    return {
      value,
      sensitivities: { ...Object.fromEntries([...timing, own].map(({ id }) => [id, 1])), [line.id]: -fillPerM3 },
    };
  };
  let sustainedDeliveryS: Uncertain | null = null;
  if (crossing !== null) {
    const met = metAtPort(
      crossing,
      firstS,
      { running, shown, noiseM3PerS: restNoise(plain, motorStartS), smearS, intervalS },
      setting,
    );
    sustainedDeliveryS = timed(met.atS, met.fillPerM3, met.rise);
  }
  let oilAtOutletS: Uncertain | null = null;
  if (firstS !== null) {
    const fillS = lineVolume.value / fullM3PerS;
    const halfS = Math.min(fillS, PORT_RISE_S);
    const onItsWay = timingSource('timing.firstOil', 'first oil on its way to the meter', halfS, 'random');
    oilAtOutletS = timed(firstS - fillS - halfS, 1 / fullM3PerS, onItsWay);
  }
  const wasRisingAtEnd = crossing === null && (excess.values.at(-1) ?? -1) >= 0;
  return { oilAtOutletS, sustainedDeliveryS, wasRisingAtEnd, sources };
}
