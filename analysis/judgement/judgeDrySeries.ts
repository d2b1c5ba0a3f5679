import { drySeries } from '../dryLift/series/drySeries.ts';
import type { AnalysedDryRun } from '../dryLift/series/seriesStart.ts';
import { printFixed } from '../formatStated.ts';
import type { DemandVerdict } from '../result.ts';
import type { DrySeries } from '../resultSchema/drySeriesSchema.ts';
import { judgeOneStart, type PrimingDemand } from './judgeDryLift.ts';

/** A verdict, and the run whose value it names. */
export type SeriesVerdict = { readonly runId: string; readonly verdict: DemandVerdict };

/** What one run of a series says, as if one start were enough. */
function saidBy(demand: PrimingDemand, { run, result }: AnalysedDryRun): SeriesVerdict[] {
  const { dryLift } = result;
  if (dryLift === null || !dryLift.priming.ok) return [];
  const ofRun = result.verdicts.find((verdict) => verdict.demand.id === demand.id);
  if (ofRun === undefined || !ofRun.speaks) return [];
  // Where several starts are asked for, a run alone says 'not proven' of a start that kept the demand.
  const judged = judgeOneStart(demand, { ...dryLift, priming: dryLift.priming.value });
  const isOneOfSeveral = demand.starts > 1 && ofRun.verdict === 'not proven' && judged.verdict === 'pass';
  return [{ runId: run.id, verdict: isOneOfSeveral ? judged : ofRun }];
}

function slowestOf(said: readonly SeriesVerdict[]): SeriesVerdict | undefined {
  return [...said].sort((a, b) => (b.verdict.value?.value ?? 0) - (a.verdict.value?.value ?? 0))[0];
}

/** All of one series: the slowest start speaks for it. */
function ofSeries(demand: PrimingDemand, series: DrySeries, said: readonly SeriesVerdict[]): SeriesVerdict | undefined {
  const doubtful = said.find(({ verdict }) => verdict.verdict !== 'pass');
  if (doubtful !== undefined) return doubtful;
  const slowest = slowestOf(said);
  if (slowest === undefined) return undefined;
  const { verdict, runId } = slowest;
  const started = `${said.length} of ${demand.starts} starts that are asked for`;
  if (said.length < demand.starts) {
    const reason = `${started} were made in class ${series.wetness}, and all kept the demand: make the others, prepared alike.`;
    return { runId, verdict: { ...verdict, verdict: 'not proven', conformityProbability: null, reason } };
  }
  if (said.length === 1) return slowest;
  // The errors of the times are largely common: no more can be said than that all of them together fail at most so often.
  const mostFailing = said.reduce((sum, { verdict: of }) => sum + 1 - (of.conformityProbability ?? 0), 0);
  const reason = `Judged: the slowest of ${said.length} starts in class ${series.wetness}, all of which kept the demand; a success rate of ${printFixed(100 * series.successRateAtLeast, 0)} % or more is proven.`;
  return { runId, verdict: { ...verdict, conformityProbability: Math.max(0, 1 - mostFailing), reason } };
}

/**
 * What the dry starts of a pump say together of a priming demand: a start that failed decides; else the starts of one series
 * must be as many as are asked for, and every one of them must keep the demand. Starts that do not count say nothing.
 *
 * @param demand - lift, speed, class, time, number of starts [-]
 * @param runs - sealed runs of one pump [-]
 * @returns the verdict with the run that it names; null: no start speaks to it [-]
 *
 * Source: rule of this project: starts are pooled within a class, speed and lift alone; Bonferroni's bound for all together.
 */
export function judgeDrySeries(demand: PrimingDemand, runs: readonly AnalysedDryRun[]): SeriesVerdict | null {
  const byId = new Map(runs.map((analysed) => [analysed.run.id, analysed]));
  const groups = drySeries(runs).flatMap((series) => {
    const counted = series.starts.filter(({ whyNotCounted }) => whyNotCounted === null);
    const said = counted.flatMap(({ runId }) => {
      const analysed = byId.get(runId);
      return analysed === undefined ? [] : saidBy(demand, analysed);
    });
    return said.length === 0 ? [] : [{ series, said }];
  });
  const failed = groups.flatMap(({ said }) => said).findLast(({ verdict }) => verdict.verdict === 'fail');
  if (failed !== undefined) return failed;
  // The longest series; of two alike the later one.
  const best = [...groups].reverse().sort((a, b) => b.said.length - a.said.length)[0];
  return (best === undefined ? undefined : ofSeries(demand, best.series, best.said)) ?? null;
}
