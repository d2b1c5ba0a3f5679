import { mean, sampleStandardDeviation } from 'simple-statistics';
import { type Course, courseBetween, crossingS, readingIntervalS, withoutSpikes } from './course.ts';
import { type EventWithSources, movedBy, timingSource, unseen } from './startEvent.ts';

/** Oil is in the delivery line when its pressure stands this far above rest, or so many standard deviations [Pa]. */
const RISEN_PA = 1000;
const RISEN_DEVIATIONS = 6;
/** It must stay there so long [s]. */
const STAYS_S = 0.3;
/** The pressure rises with the flow, and that for up to twice as long: common practice, no source [s]. */
const RISE_S = 0.15;
const LEAST_REST_READINGS = 5;

/**
 * Oil at the outlet on a bench without a flow meter: the delivery pressure rises when the line to the valve is full. Air shut in
 * would do the same, so the delivery must be vented.
 *
 * @param delivery - absolute [s, Pa]
 * @param setting - motor start and stop [s], V_g n [m³/s], line [m³], whether air can leave
 * @returns the event [s]
 */
export function byDeliveryPressure(
  delivery: Course,
  setting: {
    readonly motorStartS: number;
    readonly untilS: number;
    readonly sweptM3PerS: number;
    readonly lineVolumeM3: number;
    readonly isVented: boolean;
  },
): EventWithSources {
  const { motorStartS, untilS, sweptM3PerS, lineVolumeM3, isVented } = setting;
  const rest = [...courseBetween(delivery, Number.NEGATIVE_INFINITY, motorStartS).values];
  if (rest.length < LEAST_REST_READINGS) {
    return unseen('CHANNEL_MISSING', 'Neither flow nor delivery pressure shows whether oil came to the outlet.');
  }
  if (!isVented) {
    return unseen('NOT_TOLD', 'The delivery is not vented: its pressure rises with air as with oil.');
  }
  const levelPa = mean(rest) + Math.max(RISEN_PA, RISEN_DEVIATIONS * sampleStandardDeviation(rest));
  const course = withoutSpikes(courseBetween(delivery, motorStartS, untilS), 0);
  const { timesS, values } = course;
  const lastS = timesS.at(-1) ?? motorStartS;
  const index = values.findIndex((value, at) => {
    const fromS = timesS[at] ?? lastS;
    if (!(value >= levelPa && lastS >= fromS + STAYS_S)) return false;
    return courseBetween(course, fromS, fromS + STAYS_S).values.every((one) => one >= levelPa);
  });
  if (index < 0) return unseen('DID_NOT_HAPPEN', 'The delivery pressure never rose: no oil came to the valve.');
  const fillS = lineVolumeM3 / sweptM3PerS;
  const intervalS = readingIntervalS(delivery.timesS);
  const sources = [
    timingSource('timing.outletPressure', 'delivery pressure, between two readings', intervalS, 'random'),
    timingSource('timing.lineFillingByPressure', 'line between outlet and valve filling', fillS + RISE_S, 'random'),
  ];
  const atS = movedBy(crossingS(course, index, levelPa) - fillS - RISE_S, sources);
  return { event: { seen: true, atS, from: 'deliveryPressure' }, sources };
}
