import { oilState } from '../oil/oilState.ts';
import { no, type Outcome } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DryLiftRefusal } from '../result.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { type BlankedRefusal, blankedStarts } from './blankedStarts.ts';
import { type DryRunEstimate, estimateRun } from './estimateRun.ts';
import { type FoundPriming, findPriming } from './findPriming.ts';
import type { DryFitRefusal } from './fit/dryFitRefusal.ts';
import { type SuctionHistory, suctionHistory } from './suctionHistory.ts';
import { tankOilTemperature } from './tankOil.ts';

/** Why a run has no estimate: its start could not be read, or could not be fitted. */
type EstimateRefusal =
  | { readonly isOfFit: true; readonly reason: DryFitRefusal }
  | { readonly isOfFit: false; readonly reason: { readonly code: string; readonly text: string } };

/** What a dry start yields before it is stated: proven and estimated apart. */
export type DryLiftAnalysis = {
  readonly found: Outcome<FoundPriming, DryLiftRefusal | BlankedRefusal | typeof BLANKED>;
  readonly estimate: Outcome<DryRunEstimate, EstimateRefusal>;
  /** Of the start, or of the fastest of several. */
  readonly speedRevPerS: number;
  readonly suction: SuctionHistory | null;
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

function estimated(
  run: RunRecord,
  starts: Parameters<typeof estimateRun>[1],
  sweptVolume: Uncertain,
  base: readonly Source[],
): Outcome<DryRunEstimate, EstimateRefusal> {
  const estimate = estimateRun(run, starts, sweptVolume, base);
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
 * Reads one dry start: motor start, arrival of oil, how far the suction fell, and the leak-back that the fall tells.
 *
 * @param run - the run record: bench, oil, lift, barometer [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param base - sources of channels, barometer, oil and geometry [-]
 * @returns priming or why it cannot be told, the suction's history, and the estimate or why there is none [-]
 */
export function analyseDryLift(
  run: RunRecord,
  readings: Readings,
  sweptVolume: Uncertain,
  base: readonly Source[],
): DryLiftAnalysis {
  const found = findPriming(readings, run.bench, sweptVolume.value, run.setUp.deliveryLineVolumeM3);
  const common = { leftOut: 0, oilDensityKgPerM3: densityOf(run, readings) };
  if (!found.ok) {
    const { code, text } = found.reason;
    const estimate = no({ isOfFit: false, reason: { code, text } } as const);
    return { ...common, found, estimate, speedRevPerS: 0, suction: null, sources: [] };
  }
  const { motorStartS, speedRevPerS, arrival } = found.value;
  const suction = suctionHistory(
    readings,
    run.bench,
    motorStartS,
    arrival.primed ? arrival.sustainedDeliveryS : (readings.elapsedS.at(-1) ?? 0),
    run.setUp.barometerPa.value,
  );
  const start = {
    motorStartS,
    runningRevPerS: speedRevPerS,
    // Delivery tells more surely than the suction's bend until when no oil can have been in the pump.
    oilAtInletS: null,
    oilAtOutletS: arrival.primed ? arrival.sustainedDeliveryS : null,
  };
  const estimate = estimated(run, [{ readings, found: start }], sweptVolume, base);
  const sources = withoutBase(base, [...found.value.sources, ...sourcesOf(estimate)]);
  return { ...common, found, estimate, speedRevPerS, suction, sources };
}

/**
 * Reads a blanked run: where its suction comes to rest tells leak-back, at two speeds carry-over too.
 *
 * @param run - the run record [-]
 * @param readings - its readings [n readings, oldest first]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param base - sources of channels, barometer, oil and geometry [-]
 * @returns no priming; the suction's history, and the estimate or why there is none [-]
 */
export function analyseBlanked(
  run: RunRecord,
  readings: Readings,
  sweptVolume: Uncertain,
  base: readonly Source[],
): DryLiftAnalysis {
  const read = blankedStarts(run, readings, sweptVolume.value);
  const common = { oilDensityKgPerM3: densityOf(run, readings) };
  if (!read.ok) {
    const estimate = no({ isOfFit: false, reason: read.reason } as const);
    return { ...common, found: read, estimate, speedRevPerS: 0, suction: null, sources: [], leftOut: 0 };
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
    suction: suctionHistory(readings, run.bench, starts[0]?.found.motorStartS ?? 0, lastS, run.setUp.barometerPa.value),
    sources: withoutBase(base, sourcesOf(estimate)),
  };
}
