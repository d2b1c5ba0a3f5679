import { evenly } from '../evenly.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { Readings } from '../readings.ts';
import type { DryTogether } from '../resultSchema/dryTogetherSchema.ts';
import type { Source } from '../uncertainty/source.ts';
import { estimateDryLift } from './estimate/dryLiftLimit.ts';
import { primingAgainstLift } from './estimate/primingAgainstLift.ts';
import { transferToMachine } from './estimate/transferToMachine.ts';
import { preparedStarts, speedsApart } from './estimateRun.ts';
import type { DryFitInput } from './fit/dryFitInput.ts';
import type { DryPumpFit } from './fit/dryPumpFit.ts';
import { fitDryPump } from './fit/fitDryPump.ts';
import type { PreparedStart } from './fit/measuredStart.ts';
import { recordedStarts } from './recordedStarts.ts';
import { riserChecks } from './riser/riserChecks.ts';
import { type RiserDatum, riserDatum } from './riser/riserDatum.ts';
import type { AnalysedDryRun } from './series/seriesStart.ts';

/** A run with its readings in SI. */
export type ReadDryRun = AnalysedDryRun & { readonly readings: Readings };

/** Points of the drawn curves. */
const SPEEDS = 9;
const LIFTS = 7;
/** Speeds are drawn from this share of the slowest that was run to this multiple of the fastest, within the pump's range [1]. */
const SLOWER = 0.5;
const FASTER = 1.5;
/** Lifts are drawn up to so many times the one that was run, and no further than this share of the limit [1]. */
const HIGHER = 3;
const BELOW_LIMIT = 0.9;

/** Sources that several runs name alike are one and the same. */
function sourcesOf(runs: readonly AnalysedDryRun[]): readonly Source[] {
  return [...new Map(runs.flatMap(({ result }) => Object.entries(result.sources))).values()];
}

/** V_i of a delivery run of the same pump where there is one, V_g else. */
function capacityOf(of: AnalysedDryRun, delivery: AnalysedDryRun | null): DryFitInput['capacity'] {
  const law = delivery?.result.delivery?.law;
  if (law?.ok === true) return { m3PerRev: law.value.uncertain.derivedCapacityM3PerRev, basis: 'derived' };
  return { m3PerRev: of.result.theory.sweptVolume, basis: 'geometry' };
}

function limitAgainstSpeed(
  fit: DryPumpFit,
  run: AnalysedDryRun['run'],
  speeds: readonly number[],
): DryTogether['limitAgainstSpeed'] {
  const { min, max } = run.pump.speedRangeRevPerS;
  const slowest = Math.max(min, SLOWER * Math.min(...speeds));
  const fastest = Math.max(slowest, Math.min(max, FASTER * Math.max(...speeds)));
  return evenly(slowest, fastest, SPEEDS).map((speedRevPerS) => ({
    speedRevPerS,
    limitM: estimateDryLift(fit, speedRevPerS).limitM,
  }));
}

/** The riser of a run on which its suction can stand, read from its result. */
function datumOf(
  { run, readings, result }: Omit<ReadDryRun, 'closing'>,
  sources: readonly Source[],
): RiserDatum | null {
  const seen = (result.dryLift?.riser ?? []).filter(({ verdict }) => verdict === 'agrees');
  const readingsSeen = seen.map(({ atS, heightM: { value, standardUncertainty } }) => ({
    atS,
    heightM: { value, standardUncertainty },
  }));
  const lastS = readings.elapsedS.at(-1) ?? 0;
  return riserDatum(riserChecks(run, readings, readingsSeen, { motorStartS: 0, oilAtInletS: null, lastS }, sources));
}

/** What each run says without the others, as its own result has it. */
function alone(runs: readonly AnalysedDryRun[]): DryTogether['alone'] {
  return runs.flatMap(({ run, result }) => {
    const estimate = result.dryLift?.estimate;
    if (estimate?.ok !== true) return [];
    const kind = run.kind === 'blanked' ? 'blanked' : 'lift';
    const limits = estimate.value.limits.map(({ speedRevPerS, limitM }) => ({ speedRevPerS, limitM }));
    return [{ runId: run.id, kind, limits }];
  });
}

function machineOf(fit: DryPumpFit, { pump, oil }: AnalysedDryRun['run']): DryTogether['machine'] {
  const suction = pump.duty?.suction ?? null;
  if (suction === null) return null;
  const predicted = transferToMachine(fit, suction, oil);
  return predicted.ok ? predicted : no({ code: predicted.reason.code, text: predicted.reason.text });
}

/** At the lift run's speed; none where all were blanked, whose pipe held no column. */
function timeAgainstLift(fit: DryPumpFit, run: AnalysedDryRun['run'], limitM: number): DryTogether['timeAgainstLift'] {
  if (!fit.problem.starts.some(({ kind }) => kind === 'lift')) return [];
  const highest = Math.min(HIGHER * run.setUp.staticLiftM.value, BELOW_LIMIT * limitM);
  return primingAgainstLift(fit, evenly(highest / LIFTS, highest, LIFTS)).map(({ liftM, timeS }) => ({ liftM, timeS }));
}

/**
 * What the dry starts of several runs of one pump tell together: the limit at the speeds that were run and at others, and the
 * time against the lift.
 *
 * @param runs - of one pump, class, mounting and suction side, one or more, with readings [-]
 * @param delivery - a delivery run of the same pump in the same mounting, whose V_i is better than V_g; null: none [-]
 * @returns limits and curves with intervals of 95 %, or why there are none [SI]
 * @throws RangeError if no run is given
 *
 * Source: joint least squares of all starts with common unknowns of pump, pipe and instruments, as fitDryPump.
 */
export function fittedTogether(
  runs: readonly ReadDryRun[],
  delivery: AnalysedDryRun | null,
): Outcome<DryTogether, { readonly code: string; readonly text: string }> {
  const [first] = runs;
  if (first === undefined) throw new RangeError('runs: none given');
  const capacity = capacityOf(first, delivery);
  const sources = sourcesOf(capacity.basis === 'derived' && delivery !== null ? [delivery, ...runs] : runs);
  const prepared: PreparedStart[] = [];
  for (const { run, readings, result } of runs) {
    const { sweptVolume } = result.theory;
    const starts = recordedStarts(run, readings, sweptVolume.value);
    if (!starts.ok) return no(starts.reason);
    const ready = preparedStarts(run, starts.value, sweptVolume, sources, datumOf({ run, readings, result }, sources));
    if (!ready.ok) return no(ready.reason);
    prepared.push(...ready.value.prepared);
  }
  const fitted = fitDryPump({ prepared, capacity, sources, shaftEnds: first.run.setUp.shaftEnds });
  if (!fitted.ok) return no(fitted.reason);
  const fit = fitted.value;
  const speeds = speedsApart(prepared.map(({ start }) => start.runningRevPerS));
  const limits = speeds.map((speed) => estimateDryLift(fit, speed));
  const lift = runs.find(({ run }) => run.kind === 'dryLift');
  const liftLimitM = estimateDryLift(fit, lift?.result.dryLift?.speedRevPerS ?? speeds[0] ?? 1).limitM.value;
  return yes({
    runIds: runs.map(({ run }) => run.id),
    wetness: first.run.setUp.wetness,
    capacityBasis: capacity.basis,
    capacityRunId: capacity.basis === 'derived' ? (delivery?.run.id ?? null) : null,
    noiseFactor: fit.search.noiseFactor,
    limits: limits.map(({ speedRevPerS, limitM, blankOffPressurePa }) => ({
      speedRevPerS,
      limitM,
      blankOffPressurePa,
    })),
    alone: alone(runs),
    machine: machineOf(fit, first.run),
    limitAgainstSpeed: limitAgainstSpeed(fit, first.run, speeds),
    timeAgainstLift: timeAgainstLift(fit, (lift ?? first).run, liftLimitM),
    timeSpeedRevPerS: lift?.result.dryLift?.speedRevPerS ?? null,
    warnings: fit.warnings.map(({ code, text }) => ({ code, text })),
  });
}
