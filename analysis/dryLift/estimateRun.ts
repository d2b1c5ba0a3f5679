import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { Source, Uncertain } from '../uncertainty/source.ts';
import { type DryLiftEstimate, estimateDryLift } from './estimate/dryLiftLimit.ts';
import { type MachinePrediction, type TransferRefusal, transferToMachine } from './estimate/transferToMachine.ts';
import type { DryFitRefusal } from './fit/dryFitRefusal.ts';
import type { DryPumpFit } from './fit/dryPumpFit.ts';
import { fitDryPump } from './fit/fitDryPump.ts';
import { measuredStart, type PreparedStart } from './fit/measuredStart.ts';
import { type FoundStart, startMoments } from './fit/startMoments.ts';
import type { RiserDatum } from './riser/riserDatum.ts';
import { type StartCourse, startCourse } from './startCourse.ts';
import { tankOilTemperature } from './tankOil.ts';

/** A start in a run's record: its readings from before the motor start on, and what was found in them. */
export type RecordedStart = { readonly readings: Readings; readonly found: FoundStart };

type FittedStart = {
  readonly kind: 'lift' | 'blanked';
  readonly motorStartS: number;
  readonly speedRevPerS: number;
  /** No oil can have been in the pump before. */
  readonly fittedUntilS: number;
  readonly course: StartCourse;
};

/** What the fitted model says of a run; proves nothing. */
export type DryRunEstimate = {
  readonly fit: DryPumpFit;
  readonly capacityBasis: 'derived' | 'geometry';
  readonly starts: readonly FittedStart[];
  /** One for each speed, fastest first. */
  readonly limits: readonly DryLiftEstimate[];
  /** In the machine; null: its suction is not known. */
  readonly machine: Outcome<MachinePrediction, TransferRefusal> | null;
};

/** Speeds nearer than this are one [1]. */
const ONE_SPEED = 0.02;

/** Each speed once, fastest first [rev/s]. */
export function speedsApart(speedsRevPerS: readonly number[]): readonly number[] {
  const falling = [...speedsRevPerS].sort((a, b) => b - a);
  return falling.filter((speed, index) => index === 0 || speed < (1 - ONE_SPEED) * (falling[index - 1] ?? speed));
}

/**
 * Starts of a run made ready for the fit.
 *
 * @param run - the run record [-]
 * @param starts - its starts, one or more [-]
 * @param sweptVolume - V_g of the pump [m³/rev]
 * @param sources - of channels, barometer, oil and geometry [-]
 * @param riser - on which the suction stands where none was read at rest; null: none that agrees [-]
 * @returns the starts, and until when each was taken in the run's elapsed time; or why one cannot be used [SI]
 */
export function preparedStarts(
  run: RunRecord,
  starts: readonly RecordedStart[],
  sweptVolume: Uncertain,
  sources: readonly Source[],
  riser: RiserDatum | null = null,
): Outcome<{ readonly prepared: readonly PreparedStart[]; readonly untilS: readonly number[] }, DryFitRefusal> {
  const prepared: PreparedStart[] = [];
  const untilS: number[] = [];
  for (const [index, { readings, found }] of starts.entries()) {
    const oil = tankOilTemperature(run, readings);
    const moments = startMoments(found, readings, run.setUp.deadVolumeM3, sweptVolume.value);
    const named = starts.length === 1 ? run : { ...run, id: `${run.id}.${index + 1}` };
    const start = measuredStart(
      named,
      readings,
      moments,
      oil.temperatureK,
      [...sources, ...oil.sources, ...(riser?.sources ?? [])],
      riser?.datumPa ?? null,
    );
    if (!start.ok) return no(start.reason);
    prepared.push({ ...start.value, sources: [...start.value.sources, ...oil.sources, ...(riser?.sources ?? [])] });
    untilS.push(moments.untilS);
  }
  return yes({ prepared, untilS });
}

/**
 * Leak-back of a dry pump from the starts of one run, and what follows from it.
 *
 * @param run - the run record [-]
 * @param starts - its starts, one or more [-]
 * @param sweptVolume - V_g, in place of the derived capacity [m³/rev]
 * @param sources - of channels, barometer, oil and geometry [-]
 * @param riser - on which the suction stands where none was read at rest; null: none that agrees [-]
 * @returns the estimate, or why there is none [SI]
 */
export function estimateRun(
  run: RunRecord,
  starts: readonly RecordedStart[],
  sweptVolume: Uncertain,
  sources: readonly Source[],
  riser: RiserDatum | null = null,
): Outcome<DryRunEstimate, DryFitRefusal> {
  const ready = preparedStarts(run, starts, sweptVolume, sources, riser);
  if (!ready.ok) return no(ready.reason);
  const { prepared, untilS } = ready.value;
  const capacityBasis = 'geometry';
  const fitted = fitDryPump({
    prepared,
    capacity: { m3PerRev: sweptVolume, basis: capacityBasis },
    sources,
    shaftEnds: run.setUp.shaftEnds,
  });
  if (!fitted.ok) return no(fitted.reason);
  const fit = fitted.value;
  const suction = run.pump.duty?.suction ?? null;
  return yes({
    fit,
    capacityBasis,
    starts: prepared.map(({ start }, index): FittedStart => {
      const { readings, found } = starts[index] ?? { readings: null, found: null };
      const motorStartS = found?.motorStartS ?? 0;
      return {
        kind: start.kind,
        motorStartS,
        speedRevPerS: start.runningRevPerS,
        fittedUntilS: untilS[index] ?? motorStartS,
        course: startCourse(fit, start, motorStartS, (readings?.elapsedS.at(-1) ?? motorStartS) - motorStartS),
      };
    }),
    limits: speedsApart(prepared.map(({ start }) => start.runningRevPerS)).map((speed) => estimateDryLift(fit, speed)),
    machine: suction === null ? null : transferToMachine(fit, suction, run.oil),
  });
}
