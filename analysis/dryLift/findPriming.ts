import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Measured } from '../records/fields.ts';
import type { DryLiftRefusal } from '../result.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { channelCourse, statedLagS } from './events/course.ts';
import { findDeliveryEvents, runsUntilS } from './events/deliveryEvents.ts';
import type { StartEvents } from './events/findStartEvents.ts';
import { findMotorStart } from './events/motorStart.ts';

/** Priming as it was found; times in the run's elapsed time. */
export type FoundPriming = {
  readonly motorStartS: number;
  /** Median speed while the motor runs [rev/s]. */
  readonly speedRevPerS: number;
  readonly arrival:
    | { readonly primed: true; readonly sustainedDeliveryS: number; readonly primingTimeS: Uncertain }
    | { readonly primed: false; readonly watchedForS: number };
  readonly sources: readonly Source[];
};

const NO_FLOW: DryLiftRefusal = {
  code: 'CHANNEL_MISSING',
  channel: 'flow',
  text: "Without the channel 'flow' nobody can say that oil was delivered for good: no lift is proven.",
};

/** What of a start tells whether and when it primed. */
type Delivered = {
  readonly motorStart: Uncertain;
  readonly speedRevPerS: number;
  readonly runsUntilS: number;
  /** Null: it never came. */
  readonly sustainedDelivery: Uncertain | null;
  /** Of both times, and others besides. */
  readonly sources: readonly Source[];
};

function primingFrom(delivered: Delivered): Outcome<FoundPriming, DryLiftRefusal> {
  const { motorStart, speedRevPerS, runsUntilS: untilS, sustainedDelivery, sources } = delivered;
  const common = { motorStartS: motorStart.value, speedRevPerS };
  if (sustainedDelivery === null) {
    // A motor at rest lifts nothing: the watch ends with it.
    return yes({ ...common, arrival: { primed: false, watchedForS: untilS - motorStart.value }, sources: [] });
  }
  if (sustainedDelivery.value <= motorStart.value) {
    return no({
      code: 'FLOW_BEFORE_START',
      text: 'Oil was flowing before the motor started: the pump was not dry, or the flow channel has an offset.',
    });
  }
  const primingTimeS = combine(sustainedDelivery.value - motorStart.value, [
    { input: sustainedDelivery, derivative: 1 },
    { input: motorStart, derivative: -1 },
  ]);
  return yes({
    ...common,
    arrival: { primed: true, sustainedDeliveryS: sustainedDelivery.value, primingTimeS },
    sources: sources.filter(({ id }) => primingTimeS.sensitivities[id] !== undefined),
  });
}

/**
 * Priming by the events of a start that were found already.
 *
 * @param events - of the start [s]
 * @returns as {@link findPriming} [s]
 */
export function primingOf(events: StartEvents): Outcome<FoundPriming, DryLiftRefusal> {
  const { motorStart, sustainedDelivery } = events;
  if (!sustainedDelivery.seen && sustainedDelivery.why.code === 'CHANNEL_MISSING') return no(NO_FLOW);
  return primingFrom({
    ...events,
    motorStart: motorStart.atS,
    sustainedDelivery: sustainedDelivery.seen ? sustainedDelivery.atS : null,
  });
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
  const speed = channelCourse(readings, 'speed');
  const flow = channelCourse(readings, 'flow');
  const start = findMotorStart(speed, statedLagS(bench, 'speed'));
  if (!start.ok && start.reason.code === 'CHANNEL_MISSING') return start;
  if (flow.values.length < 3) return no(NO_FLOW);
  if (!start.ok) return start;
  const { atS, runningRevPerS } = start.value;
  const delivery = findDeliveryEvents(flow, speed, {
    motorStartS: atS.value,
    runningRevPerS,
    sweptVolumeM3PerRev,
    lineVolume: deliveryLineVolume,
    flowLagS: statedLagS(bench, 'flow'),
  });
  return primingFrom({
    motorStart: atS,
    speedRevPerS: runningRevPerS,
    runsUntilS: runsUntilS(speed, runningRevPerS),
    sustainedDelivery: delivery.sustainedDeliveryS,
    sources: [...start.value.sources, ...delivery.sources],
  });
}
