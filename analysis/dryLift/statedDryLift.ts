import { no } from '../outcome.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftResult, Priming } from '../result.ts';
import type { DiagnosisResult } from '../resultSchema/diagnosisSchema.ts';
import type { StartEventResult, StartEventsResult } from '../resultSchema/startEventsSchema.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../units.ts';
import type { DryLiftAnalysis } from './analyseDryLift.ts';
import type { NoPrimingDiagnosis } from './diagnosis/diagnoseStart.ts';
import type { StartEvents } from './events/findStartEvents.ts';
import type { StartEvent } from './events/startEvent.ts';
import type { FoundPriming } from './findPriming.ts';
import { statedEstimate } from './statedEstimate.ts';

function statedEvents(events: StartEvents, state: (of: Uncertain) => Stated): StartEventsResult {
  const stated = (event: StartEvent): StartEventResult =>
    event.seen
      ? { seen: true, atS: state(event.atS), from: event.from }
      : { seen: false, reason: { code: event.why.code, text: event.why.text } };
  const { motorStart, firstSuction, oilAtInlet, oilAtOutlet, sustainedDelivery } = events;
  return {
    motorStart: stated(motorStart),
    firstSuction: stated(firstSuction),
    oilAtInlet: stated(oilAtInlet),
    oilAtOutlet: stated(oilAtOutlet),
    sustainedDelivery: stated(sustainedDelivery),
  };
}

function statedDiagnosis(
  { timedOutAfterS, ultimateSuctionPa, liftCarriedM, cause, hold }: NoPrimingDiagnosis,
  state: (of: Uncertain) => Stated,
): DiagnosisResult {
  return {
    timedOutAfterS,
    ultimateSuctionPa: ultimateSuctionPa === null ? null : state(ultimateSuctionPa),
    liftCarriedM: liftCarriedM === null ? null : state(liftCarriedM),
    cause,
    hold,
  };
}

function statedPriming(found: FoundPriming, state: (of: Uncertain) => Stated): Priming {
  const { arrival, motorStartS } = found;
  if (!arrival.primed) return { primed: false, motorStartS, watchedForS: arrival.watchedForS };
  return {
    primed: true,
    primingTimeS: state(arrival.primingTimeS),
    motorStartS,
    sustainedDeliveryS: arrival.sustainedDeliveryS,
  };
}

/** The dry start in numbers that can be printed: what is proven, and apart from it what is estimated. */
export function statedDryLift(
  {
    found,
    events,
    diagnosis,
    riser,
    motorStartS,
    estimate,
    speedRevPerS,
    lowestPa,
    oilDensityKgPerM3,
  }: DryLiftAnalysis,
  run: RunRecord,
  state: (uncertain: Uncertain) => Stated,
): DryLiftResult {
  const { barometerPa, staticLiftM, wetness } = run.setUp;
  return {
    priming: found.ok
      ? { ok: true, value: statedPriming(found.value, state) }
      : no({ code: found.reason.code, text: found.reason.text }),
    events: events === null ? null : statedEvents(events, state),
    diagnosis: diagnosis === null ? null : statedDiagnosis(diagnosis, state),
    riser: riser.map(({ atS, heightM, carriedM, verdict }) => ({
      atS,
      sinceMotorStartS: atS === null ? null : atS - motorStartS,
      heightM: state(heightM),
      carriedM: carriedM === null ? null : state(carriedM),
      verdict,
    })),
    estimate: estimate.ok ? { ok: true, value: statedEstimate(estimate.value, state) } : no(estimate.reason.reason),
    speedRevPerS,
    staticLiftM: staticLiftM.value,
    wetness,
    barometerPa: barometerPa.value,
    oilDensityKgPerM3,
    lowestSuctionPressurePa: lowestPa === null ? null : state(lowestPa),
    columnPressurePa: barometerPa.value - oilDensityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * staticLiftM.value,
  };
}
