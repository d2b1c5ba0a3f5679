import { oilState } from '../../oil/oilState.ts';
import { no, type Outcome, yes } from '../../outcome.ts';
import type { Readings } from '../../readings.ts';
import type { RunRecord } from '../../records/runRecord.ts';
import type { DryLiftRefusal } from '../../result.ts';
import type { Source } from '../../uncertainty/source.ts';
import { tankOilTemperature } from '../tankOil.ts';
import { channelCourse, statedLagS } from './course.ts';
import { type DeliveryEvents, findDeliveryEvents, runsUntilS } from './deliveryEvents.ts';
import { findFirstSuction } from './firstSuction.ts';
import { findMotorStart } from './motorStart.ts';
import { findOilAtInlet } from './oilAtInlet.ts';
import { byDeliveryPressure } from './outletByPressure.ts';
import { pipeTop } from './pipeTop.ts';
import { type EventWithSources, type StartEvent, unseen } from './startEvent.ts';
import { suctionRest } from './suctionRest.ts';

/** The five events of a dry start, in the run's elapsed time. */
export type StartEvents = {
  readonly motorStart: Extract<StartEvent, { seen: true }>;
  readonly firstSuction: StartEvent;
  readonly oilAtInlet: StartEvent;
  readonly oilAtOutlet: StartEvent;
  readonly sustainedDelivery: StartEvent;
  /** Median while the motor runs [rev/s]. */
  readonly speedRevPerS: number;
  /** When the motor ran down; the end of the record where it did not [s]. */
  readonly runsUntilS: number;
  /** Flow stood at the criterion when the motor stopped or the record ended, but not for long enough yet. */
  readonly wasRisingAtEnd: boolean;
  readonly sources: readonly Source[];
};

const NO_DELIVERY: DeliveryEvents = {
  oilAtOutletS: null,
  sustainedDeliveryS: null,
  wasRisingAtEnd: false,
  sources: [],
};

/** Delivery sustained, or why nobody can say so. */
function sustainedEvent({ sustainedDeliveryS }: DeliveryEvents, hasFlow: boolean): StartEvent {
  if (sustainedDeliveryS !== null) return { seen: true, atS: sustainedDeliveryS, from: 'flow' };
  return hasFlow
    ? unseen('DID_NOT_HAPPEN', 'The flow never stayed at half of swept volume × speed for two seconds.').event
    : unseen('CHANNEL_MISSING', 'Without a flow meter nobody can say that delivery was sustained: no lift is proven.')
        .event;
}

/**
 * Finds motor start, first suction, oil at the inlet, oil at the outlet and sustained delivery, each with its uncertainty.
 * A bench without a flow meter sees no sustained delivery, and the outlet by its pressure alone; one without a suction
 * channel sees no first suction, and the inlet by the outlet.
 *
 * @param run - bench, oil, set-up [-]
 * @param readings - of the run; the speed is needed [n readings, oldest first]
 * @param sweptVolumeM3PerRev - V_g of the pump: what counts as delivery [m³/rev]
 * @returns the events, or why the start itself cannot be told [s]
 */
export function findStartEvents(
  run: Pick<RunRecord, 'bench' | 'oil' | 'setUp' | 'zeroCheck'>,
  readings: Readings,
  sweptVolumeM3PerRev: number,
): Outcome<StartEvents, DryLiftRefusal> {
  const { bench, setUp } = run;
  const speed = channelCourse(readings, 'speed');
  const start = findMotorStart(speed, statedLagS(bench, 'speed'));
  if (!start.ok) return no(start.reason);
  const { atS, runningRevPerS } = start.value;
  const motorStartS = atS.value;
  const untilS = runsUntilS(speed, runningRevPerS);
  const sweptM3PerS = sweptVolumeM3PerRev * runningRevPerS;
  const flow = channelCourse(readings, 'flow');
  const suction = channelCourse(readings, 'suctionPressure');
  const hasFlow = flow.values.length >= 3;
  const delivery = hasFlow
    ? findDeliveryEvents(flow, speed, {
        motorStartS,
        runningRevPerS,
        sweptVolumeM3PerRev,
        lineVolume: setUp.deliveryLineVolumeM3,
        flowLagS: statedLagS(bench, 'flow'),
      })
    : NO_DELIVERY;

  const outletOf = (): EventWithSources => {
    if (delivery.oilAtOutletS !== null) {
      return { event: { seen: true, atS: delivery.oilAtOutletS, from: 'flow' }, sources: [] };
    }
    if (hasFlow) return unseen('DID_NOT_HAPPEN', 'No oil came to the flow meter while the motor ran.');
    return byDeliveryPressure(channelCourse(readings, 'deliveryPressure'), {
      motorStartS,
      untilS,
      sweptM3PerS,
      lineVolumeM3: setUp.deliveryLineVolumeM3.value,
      isVented: setUp.isDeliveryVented,
    });
  };
  const oilAtOutlet = outletOf();
  const rest = suctionRest(suction, motorStartS);
  const suctionLagS = statedLagS(bench, 'suctionPressure');
  const firstSuction =
    suction.values.length === 0
      ? unseen('CHANNEL_MISSING', "The bench has no channel 'suctionPressure'.")
      : findFirstSuction(suction, motorStartS, rest, suctionLagS);
  const oilAtInlet = findOilAtInlet(suction, rest, {
    top: pipeTop(setUp),
    oil: oilState(run.oil, tankOilTemperature(run, readings).temperatureK.value),
    sweptM3PerS,
    deadVolumeM3: setUp.deadVolumeM3,
    suctionLagS,
    firstSuctionS: firstSuction.event.seen ? firstSuction.event.atS.value : null,
    untilS,
    oilAtOutlet: oilAtOutlet.event.seen ? oilAtOutlet.event : null,
  });
  const sources = [start.value, delivery, oilAtOutlet, firstSuction, oilAtInlet].flatMap((found) => found.sources);
  return yes({
    motorStart: { seen: true, atS, from: 'speed' },
    firstSuction: firstSuction.event,
    oilAtInlet: oilAtInlet.event,
    oilAtOutlet: oilAtOutlet.event,
    sustainedDelivery: sustainedEvent(delivery, hasFlow),
    speedRevPerS: runningRevPerS,
    runsUntilS: untilS,
    wasRisingAtEnd: delivery.wasRisingAtEnd,
    sources: [...new Map(sources.map((source) => [source.id, source])).values()],
  });
}
