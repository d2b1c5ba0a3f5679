import { mean, sampleStandardDeviation } from 'simple-statistics';
import type { DrySeries } from '../../resultSchema/drySeriesSchema.ts';
import type { Stated } from '../../uncertainty/stated.ts';
import { countedStarts } from './countedStarts.ts';
import type { AnalysedDryRun, SeriesStart } from './seriesStart.ts';
import { seriesWarnings } from './seriesWarnings.ts';
import { provenSuccessRate } from './successRate.ts';
import { toleranceFactor } from './toleranceFactor.ts';
import { trendOverStarts } from './trendOverStarts.ts';

/** Speeds and lifts nearer than this are one: set points are met by hand, lifts by tape [1], [m]. */
const ONE_SPEED = 0.02;
const ONE_LIFT_M = 0.005;
/** Two times say next to nothing of the third [1]. */
const LEAST_TIMES = 3;

function dryStartOf(analysed: AnalysedDryRun): SeriesStart | null {
  const { run, result } = analysed;
  if (run.kind !== 'dryLift' || result.dryLift === null || !result.dryLift.priming.ok) return null;
  if (result.findings.some(({ severity }) => severity === 'unfit')) return null;
  const { speedRevPerS, staticLiftM, priming } = result.dryLift;
  const { value } = priming;
  return {
    ...analysed,
    speedRevPerS,
    staticLiftM,
    primingTimeS: value.primed ? value.primingTimeS : null,
    watchedForS: value.primed ? null : value.watchedForS,
  };
}

/** Whether two starts were prepared and made alike, so that one says what the other would do. */
function areAlike(a: SeriesStart, b: SeriesStart): boolean {
  return (
    a.run.setUp.wetness === b.run.setUp.wetness &&
    a.run.label === b.run.label &&
    a.run.pump.id === b.run.pump.id &&
    a.run.oil.name === b.run.oil.name &&
    a.result.isPractice === b.result.isPractice &&
    Math.abs(a.speedRevPerS - b.speedRevPerS) <= ONE_SPEED * a.speedRevPerS &&
    Math.abs(a.staticLiftM - b.staticLiftM) <= ONE_LIFT_M
  );
}

/** Interval of ln t; what is common to all times widens it at both ends. */
function toleranceOf(times: readonly Stated[]): DrySeries['tolerance'] {
  if (times.length < LEAST_TIMES) return null;
  const logs = times.map(({ value }) => Math.log(value));
  const middle = mean(logs);
  const factor = toleranceFactor(times.length);
  const half = factor * sampleStandardDeviation(logs);
  const commonS = Math.max(...times.map(({ expandedUncertainty }) => expandedUncertainty));
  return {
    lowerS: Math.max(0, Math.exp(middle - half) - commonS),
    upperS: Math.exp(middle + half) + commonS,
    factor,
    geometricMeanS: Math.exp(middle),
  };
}

function seriesOf(alike: readonly SeriesStart[], all: readonly AnalysedDryRun[]): DrySeries | null {
  const [first] = alike;
  if (first === undefined) return null;
  const judged = countedStarts(alike, all);
  const counted = judged.flatMap(({ start, whyNotCounted }) => (whyNotCounted === null ? [start] : []));
  if (counted.length === 0) return null;
  const times = counted.flatMap(({ primingTimeS }) => (primingTimeS === null ? [] : [primingTimeS]));
  const trend = trendOverStarts(times.map(({ value }) => value));
  return {
    wetness: first.run.setUp.wetness,
    label: first.run.label,
    speedRevPerS: Math.max(...counted.map(({ speedRevPerS }) => speedRevPerS)),
    staticLiftM: Math.min(...counted.map(({ staticLiftM }) => staticLiftM)),
    starts: judged.map(({ start, whyNotCounted }) => ({
      runId: start.run.id,
      startedAtUtc: start.run.startedAtUtc,
      primingTimeS: start.primingTimeS,
      watchedForS: start.watchedForS,
      whyNotCounted,
    })),
    countedStarts: counted.length,
    primedStarts: times.length,
    successRateAtLeast: provenSuccessRate(times.length, counted.length),
    tolerance: toleranceOf(times),
    trend,
    warnings: seriesWarnings(alike, trend),
  };
}

/**
 * The dry starts of a pump, pooled where they were prepared alike: one wetness class, state, oil, speed and lift.
 *
 * @param runs - sealed runs of one pump, of any kind, in any order [-]
 * @returns a series for each way of preparing, in the order of their first starts; a single start is a series of one [-]
 *
 * Source: pooling rule of this project: only like starts say what the next one will do; wetting as in the set-up record.
 */
export function drySeries(runs: readonly AnalysedDryRun[]): readonly DrySeries[] {
  const inOrder = [...runs].sort((a, b) => Date.parse(a.run.startedAtUtc) - Date.parse(b.run.startedAtUtc));
  const groups: SeriesStart[][] = [];
  for (const analysed of inOrder) {
    const start = dryStartOf(analysed);
    if (start === null) continue;
    const group = groups.find(([first]) => first !== undefined && areAlike(first, start));
    if (group === undefined) groups.push([start]);
    else group.push(start);
  }
  return groups.flatMap((group) => seriesOf(group, inOrder) ?? []);
}
