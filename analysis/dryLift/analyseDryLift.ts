import { oilState } from '../oil/oilState.ts';
import { no, type Outcome } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftRefusal } from '../result.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { type BlankedRefusal, blankedStarts } from './blankedStarts.ts';
import { diagnoseStart, type NoPrimingDiagnosis } from './diagnosis/diagnoseStart.ts';
import { type DryRunEstimate, estimateRun } from './estimateRun.ts';
import { findStartEvents, type StartEvents } from './events/findStartEvents.ts';
import { type FoundPriming, findPriming, primingOf } from './findPriming.ts';
import type { DryFitRefusal } from './fit/dryFitRefusal.ts';
import { lowestSuctionPa } from './lowestSuction.ts';
import { liftStart } from './recordedStarts.ts';
import { type RiserCheck, riserChecks } from './riser/riserChecks.ts';
import { type RiserDatum, riserDatum } from './riser/riserDatum.ts';
import type { RiserReading } from './riser/riserReadings.ts';
import { type StartDoubt, startDoubts } from './startDoubts.ts';
import { tankOilTemperature } from './tankOil.ts';
import { wetStart } from './wetStart.ts';

/** Why a run has no estimate: its start could not be read, or could not be fitted. */
type EstimateRefusal =
  | { readonly isOfFit: true; readonly reason: DryFitRefusal }
  | { readonly isOfFit: false; readonly reason: { readonly code: string; readonly text: string } };

/** What a dry start yields before it is stated: proven and estimated apart. */
export type DryLiftAnalysis = {
  readonly found: Outcome<FoundPriming, DryLiftRefusal | BlankedRefusal | typeof BLANKED>;
  /** Null: of no single start, or of none that could be read. */
  readonly events: StartEvents | null;
  /** What contradicts itself, whatever came of the start. */
  readonly doubts: readonly StartDoubt[];
  /** Null: oil came, or was not to come, or nobody can say. */
  readonly diagnosis: NoPrimingDiagnosis | null;
  /** What was seen in a clear riser, held against the suction. */
  readonly riser: readonly RiserCheck[];
  /** On the scale of the run's elapsed time; 0 where it was not found. */
  readonly motorStartS: number;
  readonly estimate: Outcome<DryRunEstimate, EstimateRefusal>;
  /** Of the start, or of the fastest of several. */
  readonly speedRevPerS: number;
  /** Held for half a second, absolute; null: not shown. */
  readonly lowestPa: Uncertain | null;
  readonly oilDensityKgPerM3: number;
  /** Beyond those it was given. */
  readonly sources: readonly Source[];
  /** Blanked starts that could not be used, their suction not having come back. */
  readonly leftOut: number;
};

/** A blanked run proves no lift, and is not meant to. */
const BLANKED = {
  code: 'SUCTION_BLANKED',
  text: 'Started against a shut suction: no oil was to come, and no lift is proven.',
} as const;

const NO_LIFT = {
  code: 'LIFT_ZERO',
  text: 'From a lift of zero there is no column by whose rise leak-back could be told.',
} as const;

function estimated(
  run: RunRecord,
  starts: Parameters<typeof estimateRun>[1],
  sweptVolume: Uncertain,
  base: readonly Source[],
  riser: RiserDatum | null = null,
): Outcome<DryRunEstimate, EstimateRefusal> {
  const estimate = estimateRun(run, starts, sweptVolume, base, riser);
  return estimate.ok ? estimate : no({ isOfFit: true, reason: estimate.reason });
}

function withoutBase(base: readonly Source[], more: readonly Source[]): readonly Source[] {
  const known = new Set(base.map(({ id }) => id));
  return [...new Map(more.map((source) => [source.id, source])).values()].filter(({ id }) => !known.has(id));
}

function sourcesOf(estimate: DryLiftAnalysis['estimate']): readonly Source[] {
  return estimate.ok ? estimate.value.fit.sources : [];
}

function densityOf(run: RunRecord, readings: Readings): number {
  return oilState(run.oil, tankOilTemperature(run, readings).temperatureK.value).densityKgPerM3;
}

/**
 * Reads one dry start: its events from motor start to delivery, how far the suction fell, and the leak-back that the fall
 * tells.
 *
 * @param run - the run record: bench, oil, lift, barometer [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param base - sources of channels, barometer, oil and geometry [-]
 * @param seen - oil in a clear riser [s, m]
 * @returns priming or why it cannot be told, the events, the lowest suction, and the estimate or why there is none [-]
 */
export function analyseDryLift(
  run: RunRecord,
  readings: Readings,
  sweptVolume: Uncertain,
  base: readonly Source[],
  seen: readonly RiserReading[] = [],
): DryLiftAnalysis {
  const events = findStartEvents(run, readings, sweptVolume.value);
  // Without a start to be read, a missing flow meter is still the first thing to be told.
  const found = events.ok
    ? primingOf(events.value)
    : findPriming(readings, run.bench, sweptVolume.value, run.setUp.deliveryLineVolumeM3);
  const common = { found, leftOut: 0, oilDensityKgPerM3: densityOf(run, readings) };
  const unread = ({ code, text }: DryLiftRefusal): DryLiftAnalysis => ({
    ...common,
    events: null,
    diagnosis: null,
    doubts: [],
    riser: [],
    motorStartS: 0,
    estimate: no({ isOfFit: false, reason: { code, text } } as const),
    speedRevPerS: 0,
    lowestPa: null,
    sources: [],
  });
  if (!events.ok) return unread(events.reason);
  // Without a flow meter nothing is proven, and the suction still tells leak-back.
  if (!found.ok && found.reason.code !== 'CHANNEL_MISSING') return unread(found.reason);
  const { oilAtOutlet, sustainedDelivery, speedRevPerS, runsUntilS } = events.value;
  const start = liftStart(events.value);
  const lastS = readings.elapsedS.at(-1) ?? runsUntilS;
  const riser = riserChecks(run, readings, seen, { ...start, lastS }, base);
  const wet = wetStart(run, readings, events.value, sweptVolume.value);
  const whyNone = wet ?? (run.setUp.staticLiftM.value > 0 ? null : NO_LIFT);
  const estimate =
    whyNone === null
      ? estimated(run, [{ readings, found: start }], sweptVolume, base, riserDatum(riser))
      : no({ isOfFit: false, reason: { code: whyNone.code, text: whyNone.text } } as const);
  // Without a flow meter, oil at the outlet is all that can be missed.
  const missed = found.ok ? sustainedDelivery : oilAtOutlet;
  const diagnosis =
    !missed.seen && missed.why.code === 'DID_NOT_HAPPEN'
      ? diagnoseStart(run, readings, events.value, sweptVolume.value)
      : null;
  const deliveredS = sustainedDelivery.seen ? sustainedDelivery.atS.value : runsUntilS;
  return {
    ...common,
    found: wet === null ? found : no(wet),
    events: events.value,
    diagnosis,
    riser,
    motorStartS: start.motorStartS,
    // A column that hung in the pipe is why the suction did not stand at the barometer.
    doubts: startDoubts(run, readings, start.motorStartS, base).filter(
      ({ code }) => !(wet?.code === 'ALREADY_WET' && code === 'BAROMETER_CONTRADICTS_SUCTION'),
    ),
    estimate,
    speedRevPerS,
    lowestPa: lowestSuctionPa(run, readings, start.motorStartS, deliveredS),
    sources: withoutBase(base, [
      ...(found.ok ? found.value.sources : []),
      ...events.value.sources,
      ...(diagnosis?.sources ?? []),
      ...riser.flatMap(({ sources }) => sources),
      ...sourcesOf(estimate),
    ]),
  };
}

/**
 * Reads a blanked run: where its suction comes to rest tells leak-back, at two speeds carry-over too.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param base - sources of channels, barometer, oil and geometry [-]
 * @returns no priming; the lowest suction, and the estimate or why there is none [-]
 */
export function analyseBlanked(
  run: RunRecord,
  readings: Readings,
  sweptVolume: Uncertain,
  base: readonly Source[],
): DryLiftAnalysis {
  const read = blankedStarts(run, readings, sweptVolume.value);
  const common = {
    events: null,
    diagnosis: null,
    doubts: [],
    riser: [],
    motorStartS: 0,
    oilDensityKgPerM3: densityOf(run, readings),
  };
  if (!read.ok) {
    const estimate = no({ isOfFit: false, reason: read.reason } as const);
    return { ...common, found: read, estimate, speedRevPerS: 0, lowestPa: null, sources: [], leftOut: 0 };
  }
  const { starts, leftOut } = read.value;
  const estimate = estimated(run, starts, sweptVolume, base);
  const lastS = readings.elapsedS.at(-1) ?? 0;
  return {
    ...common,
    found: no(BLANKED),
    estimate,
    leftOut,
    speedRevPerS: Math.max(...starts.map(({ found }) => found.runningRevPerS)),
    lowestPa: lowestSuctionPa(run, readings, starts[0]?.found.motorStartS ?? 0, lastS),
    sources: withoutBase(base, sourcesOf(estimate)),
  };
}
