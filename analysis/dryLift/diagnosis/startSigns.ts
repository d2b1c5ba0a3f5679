import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { Readings } from '../../readings.ts';
import { type Course, channelCourse, courseBetween } from '../events/course.ts';
import type { StartEvents } from '../events/findStartEvents.ts';
import { suctionRest } from '../events/suctionRest.ts';

/** A mean with its standard deviation, by the scatter of its readings. */
export type MeanSign = { readonly value: number; readonly deviation: number };

/** What a start that did not prime shows, channel by channel; null: not shown. */
export type StartSigns = {
  /** Rest less suction while the motor ran, from its start on: positive is drawn [s since motor start, Pa]. */
  readonly drawn: Course | null;
  readonly suctionRestPa: number | null;
  readonly suctionNoisePa: number;
  /** Over the last seconds of the run. */
  readonly endDrawnPa: MeanSign | null;
  /** The same some time before: where they agree, the suction had come to rest. */
  readonly beforeDrawnPa: MeanSign | null;
  readonly middleDrawnPa: MeanSign | null;
  /** Delivery pressure over what it was at rest. */
  readonly endDeliveryRisePa: MeanSign | null;
  /** Flow over V_g n. */
  readonly endFlowShare: MeanSign | null;
  readonly watchedForS: number;
};

/** The end of the run: its last tenth, two seconds at the most [s], [1]. */
const END_SHARE = 0.1;
const LONGEST_END_S = 2;
const LAST_READINGS = 5;

function meanSign(course: Course, fromS: number, untilS: number): MeanSign | null {
  const values = [...courseBetween(course, fromS, untilS).values];
  if (values.length < 3) return null;
  return { value: mean(values), deviation: sampleStandardDeviation(values) / Math.sqrt(values.length) };
}

/** The last readings that were good: a pressure that left its channel's range rose before it did. */
function lastSign(course: Course, fromS: number, untilS: number): MeanSign | null {
  const { timesS } = courseBetween(course, fromS, untilS);
  return meanSign(course, timesS.at(-LAST_READINGS) ?? untilS, untilS);
}

/** Difference of two means. */
function over(from: MeanSign | null, what: MeanSign | null): MeanSign | null {
  if (from === null || what === null) return null;
  return { value: what.value - from.value, deviation: Math.hypot(what.deviation, from.deviation) };
}

/**
 * The signs by which the cause of a failed start is told.
 *
 * @param readings - of the run [n readings, oldest first]
 * @param events - of the start [s]
 * @param sweptVolumeM3PerRev - V_g [m³/rev]
 * @returns means over the end of the run, against rest [Pa, 1]
 */
export function startSigns(readings: Readings, events: StartEvents, sweptVolumeM3PerRev: number): StartSigns {
  const motorStartS = events.motorStart.atS.value;
  const untilS = events.runsUntilS;
  const watchedForS = untilS - motorStartS;
  const endS = Math.min(LONGEST_END_S, END_SHARE * watchedForS);
  const suction = channelCourse(readings, 'suctionPressure');
  const delivery = channelCourse(readings, 'deliveryPressure');
  const flow = channelCourse(readings, 'flow');
  const rest = suctionRest(suction, motorStartS);
  const suctionAtRest = meanSign(suction, Number.NEGATIVE_INFINITY, motorStartS);
  const drawnOver = (fromS: number, toS: number): MeanSign | null => {
    const fall = over(suctionAtRest, meanSign(suction, fromS, toS));
    return fall === null ? null : { ...fall, value: -fall.value };
  };
  const running = courseBetween(suction, motorStartS, untilS);
  const flowAtEnd = meanSign(flow, untilS - endS, untilS);
  const fullM3PerS = sweptVolumeM3PerRev * events.speedRevPerS;
  return {
    drawn:
      rest === null || running.values.length < 10
        ? null
        : {
            timesS: running.timesS.map((timeS) => timeS - motorStartS),
            values: running.values.map((value) => rest.meanPa - value),
          },
    suctionRestPa: rest?.meanPa ?? null,
    suctionNoisePa: rest?.noisePa ?? 0,
    endDrawnPa: drawnOver(untilS - endS, untilS),
    beforeDrawnPa: drawnOver(untilS - 0.3 * watchedForS - endS, untilS - 0.3 * watchedForS),
    middleDrawnPa: drawnOver(untilS - 0.6 * watchedForS - endS, untilS - 0.6 * watchedForS),
    endDeliveryRisePa: over(
      meanSign(delivery, Number.NEGATIVE_INFINITY, motorStartS),
      meanSign(delivery, untilS - endS, untilS) ?? lastSign(delivery, motorStartS, untilS),
    ),
    endFlowShare:
      flowAtEnd === null ? null : { value: flowAtEnd.value / fullM3PerS, deviation: flowAtEnd.deviation / fullM3PerS },
    watchedForS,
  };
}
