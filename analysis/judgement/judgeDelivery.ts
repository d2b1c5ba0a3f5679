import type { LawSpeaker } from '../efficiency/lawSpeaker.ts';
import { type Outcome, yes } from '../outcome.ts';
import type { Demand } from '../records/dutyRecord.ts';
import type { DemandVerdict } from '../result.ts';
import type { Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { judge, type Limit } from './judge.ts';

/** How far outside the measured range a duty point may lie and still be judged [1]. */
const EXTRAPOLATION_SHARE = 0.1;

export type DeliveryEvidence = {
  readonly speaker: LawSpeaker;
  readonly capacityRatio: Uncertain;
  /** States a value with the run's sources. */
  readonly state: (uncertain: Uncertain) => Stated;
};

function isBeyond(value: number, [low, high]: readonly [number, number]): boolean {
  return value < low - EXTRAPOLATION_SHARE * Math.abs(low) || value > high + EXTRAPOLATION_SHARE * Math.abs(high);
}

type Judged = { readonly value: Stated; readonly limit: Limit; readonly words: string };

function judgedAtPoint(
  demand: Extract<Demand, { readonly at: unknown }>,
  { speaker }: DeliveryEvidence,
): Outcome<Judged, { readonly text: string }> {
  const spoken = speaker.at(demand.at);
  if (!spoken.ok) return spoken;
  const { flowM3PerS, derivedEfficiency, change } = spoken.value;
  const state = speaker.stateWith(change.sources);
  return yes(
    demand.quantity === 'deliveredFlow'
      ? {
          value: state(flowM3PerS),
          limit: { atLeast: demand.atLeastM3PerS },
          words: 'flow of the fitted law at the duty point',
        }
      : {
          value: state(derivedEfficiency),
          limit: { atLeast: demand.atLeast },
          words: 'flow of the fitted law over derived capacity × speed at the duty point',
        },
  );
}

function judgedOf(
  demand: Exclude<Demand, { readonly quantity: 'primingTime' }>,
  evidence: DeliveryEvidence,
): Outcome<Judged, { readonly text: string }> {
  if ('at' in demand) return judgedAtPoint(demand, evidence);
  return yes({
    value: evidence.state(evidence.capacityRatio),
    limit: { atLeast: demand.atLeast, atMost: demand.atMost },
    words: 'derived capacity over swept volume of the geometry',
  });
}

/** What the law says of one demand; a dry-lift demand is for another run. */
export function judgeDeliveryDemand(demand: Demand, evidence: DeliveryEvidence): DemandVerdict {
  const silent = { demand, verdict: 'not proven', value: null, conformityProbability: null } as const;
  if (demand.quantity === 'primingTime') {
    return { ...silent, speaks: false, reason: 'A delivery run does not speak to dry priming.' };
  }
  const { range } = evidence.speaker.evidence.law;
  if (
    'at' in demand &&
    (isBeyond(demand.at.speedRevPerS, range.speedRevPerS) ||
      isBeyond(demand.at.differentialPressurePa, range.differentialPressurePa))
  ) {
    return {
      ...silent,
      speaks: true,
      reason: 'The duty point lies outside the measured speeds and pressures: add holds that enclose it.',
    };
  }
  const judged = judgedOf(demand, evidence);
  if (!judged.ok) return { ...silent, speaks: true, reason: judged.reason.text };
  const { value, limit, words } = judged.value;
  return { demand, ...judge(value, limit), speaks: true, value, reason: `Judged: ${words}.` };
}
