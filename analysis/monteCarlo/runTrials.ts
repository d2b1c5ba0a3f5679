import type { SlipFit } from '../delivery/fitSlip.ts';
import type { LawSpeaker } from '../efficiency/lawSpeaker.ts';
import type { Demand } from '../records/dutyRecord.ts';
import type { MonteCarlo } from '../resultSchema/monteCarloSchema.ts';
import type { HoldState } from '../steady/holdState.ts';
import { monteCarloDelivery } from './monteCarloDelivery.ts';
import { seededUniform } from './seededUniform.ts';

/** How many trials, and the seed that makes them repeatable. */
export type TrialRequest = { readonly trials: number; readonly seed: number };

/**
 * The whole chain of a run by trials, with the operating points of its duty.
 *
 * @param speaker - the law, ready to be asked [-]
 * @param fit - the fit that it came from [-]
 * @param holds - in the fit [n holds]
 * @param points - demands with an operating point [-]
 * @param request - trials, 1000 or more, and seed [-]
 * @returns both ways' intervals [SI]; a point at which the clearances cannot be had is left out [-]
 * @throws RangeError if there are too few trials
 *
 * Source: JCGM 101:2008, as monteCarloDelivery.
 */
export function runTrials(
  speaker: LawSpeaker,
  fit: SlipFit,
  holds: readonly HoldState[],
  points: readonly Extract<Demand, { readonly at: unknown }>[],
  request: TrialRequest,
): MonteCarlo {
  const { trials, seed } = request;
  const { oil, outlet, runOil } = speaker.evidence;
  const spoken = points.flatMap(({ id, at }) => {
    const change = speaker.clearancesAt(at.oilTemperatureK);
    return change.ok ? [{ id, at, change: change.value }] : [];
  });
  const found = monteCarloDelivery(
    { holds, fit, runOil, outlet, sources: speaker.sourcesWith(spoken.flatMap(({ change }) => change.sources)) },
    spoken.map(({ at, change }) => ({ ...at, oil, laminarFactor: change.factor })),
    trials,
    seededUniform(seed),
  );
  return {
    ...found,
    seed,
    points: found.points.map((point, index) => ({ demandId: spoken[index]?.id ?? '', ...point })),
  };
}
