import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { BenchRecord } from '../records/benchRecord.ts';
import type { Measured } from '../records/fields.ts';
import type { DryLiftRefusal } from '../result.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { channelCourse } from './events/course.ts';
import { findDeliveryEvents, runsUntilS } from './events/deliveryEvents.ts';
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

/**
 * Lag of a channel as the bench record states it.
 *
 * @param bench - bench record [-]
 * @param channel - which [-]
 * @returns its lag; 0 for a channel that the bench has not [s]
 */
export function statedLagS(bench: BenchRecord, channel: 'speed' | 'flow' | 'suctionPressure'): number {
  return bench.channels.find((entry) => entry.channel === channel)?.lagS ?? 0;
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
  if (flow.values.length < 3) {
    return no({
      code: 'CHANNEL_MISSING',
      channel: 'flow',
      text: "Without the channel 'flow' nobody can say that oil was delivered for good: no lift is proven.",
    });
  }
  if (!start.ok) return start;
  const { atS, runningRevPerS } = start.value;
  const { sustainedDeliveryS, sources } = findDeliveryEvents(flow, speed, {
    motorStartS: atS.value,
    runningRevPerS,
    sweptVolumeM3PerRev,
    lineVolume: deliveryLineVolume,
    flowLagS: statedLagS(bench, 'flow'),
  });
  const common = { motorStartS: atS.value, speedRevPerS: runningRevPerS };
  if (sustainedDeliveryS === null) {
    // A motor at rest lifts nothing: the watch ends with it.
    const watchedForS = runsUntilS(speed, runningRevPerS) - atS.value;
    return yes({ ...common, arrival: { primed: false, watchedForS }, sources: [] });
  }
  if (sustainedDeliveryS.value <= atS.value) {
    return no({
      code: 'FLOW_BEFORE_START',
      text: 'Oil was flowing before the motor started: the pump was not dry, or the flow channel has an offset.',
    });
  }
  const primingTimeS = combine(sustainedDeliveryS.value - atS.value, [
    { input: sustainedDeliveryS, derivative: 1 },
    { input: atS, derivative: -1 },
  ]);
  const used = [...start.value.sources, ...sources].filter(({ id }) => primingTimeS.sensitivities[id] !== undefined);
  return yes({
    ...common,
    arrival: { primed: true, sustainedDeliveryS: sustainedDeliveryS.value, primingTimeS },
    sources: used,
  });
}
