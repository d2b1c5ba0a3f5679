import { judgeDrySeries } from '../judgement/judgeDrySeries.ts';
import { outcomeOf } from '../judgement/outcomeOf.ts';
import { unvouchedChannels } from '../judgement/unvouchedChannels.ts';
import type { Demand } from '../records/dutyRecord.ts';
import type { DemandVerdict, OutcomeWord } from '../result.ts';
import type { CertificateDemand } from './certificateData.ts';
import { budgeted } from './certificateStated.ts';
import type { CertifiedRun } from './certifiedRun.ts';

type Spoken = { readonly runId: string; readonly startedAt: number; readonly verdict: DemandVerdict };

function spokenOf(demand: Demand, runs: readonly CertifiedRun[]): readonly Spoken[] {
  return runs.flatMap(({ run, result }) => {
    const verdict = result.verdicts.find((entry) => entry.demand.id === demand.id);
    return verdict === undefined ? [] : [{ runId: run.id, startedAt: Date.parse(run.startedAtUtc), verdict }];
  });
}

/**
 * Each demand takes the verdict of the latest run that speaks to it, priming that of all dry starts together; where none does it
 * is not proven, with the reasons.
 */
function demandAcross(demand: Demand, runs: readonly CertifiedRun[]): CertificateDemand {
  const together = demand.quantity === 'primingTime' ? judgeDrySeries(demand, runs) : null;
  if (together !== null) return certified(demand, together);
  const spoken = spokenOf(demand, runs);
  const speaking = spoken.filter(({ verdict }) => verdict.speaks).sort((a, b) => b.startedAt - a.startedAt);
  const [latest] = speaking;
  if (latest === undefined) {
    const reasons = [...new Set(spoken.map(({ verdict }) => verdict.reason))].join(' ');
    const reason = `No run speaks to it. ${reasons}`.trim();
    return { demand, verdict: 'not proven', runId: null, value: null, conformityProbability: null, reason };
  }
  return certified(demand, latest);
}

function certified(demand: Demand, { verdict, runId }: Pick<Spoken, 'runId' | 'verdict'>): CertificateDemand {
  return {
    demand,
    verdict: verdict.verdict,
    runId,
    value: verdict.value === null ? null : budgeted(verdict.value),
    conformityProbability: verdict.conformityProbability,
    reason: verdict.reason,
  };
}

/** The demands of the pump's duty, in their order, each with the verdict of the run that speaks to it. */
export function demandsAcrossRuns(runs: readonly CertifiedRun[]): readonly CertificateDemand[] {
  return (runs[0]?.run.pump.duty?.demands ?? []).map((demand) => demandAcross(demand, runs));
}

/**
 * The word in the title. A bench that nobody vouches for, a pump without demands, or demands that no run speaks to: all
 * 'measured'.
 */
export function outcomeAcross(demands: readonly CertificateDemand[], runs: readonly CertifiedRun[]): OutcomeWord {
  const isVouchedFor = runs.every(({ run }) => unvouchedChannels(run).length === 0);
  const isAnyJudged = demands.some(({ runId, verdict }) => runId !== null && verdict !== 'measured');
  if (!isVouchedFor || !isAnyJudged) return 'measured';
  return outcomeOf(demands.map(({ verdict }) => verdict));
}
