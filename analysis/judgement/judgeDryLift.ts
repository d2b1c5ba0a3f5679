import { printRpm } from '../formatStated.ts';
import type { Demand } from '../records/dutyRecord.ts';
import type { WetnessClass } from '../records/fields.ts';
import type { DemandVerdict, Priming } from '../result.ts';
import { judge } from './judge.ts';

export type DryLiftEvidence = {
  readonly priming: Priming;
  readonly speedRevPerS: number;
  readonly staticLiftM: number;
  readonly wetness: WetnessClass;
};

export type PrimingDemand = Extract<Demand, { quantity: 'primingTime' }>;

/** A start at most this much faster than the demand allows still counts: set points are met by hand [1]. */
const SPEED_TOLERANCE = 0.02;

/** From driest to wettest: a start from a drier state proves a demand for a wetter one. */
const WETNESS_ORDER: readonly WetnessClass[] = ['W0', 'W1', 'W2', 'W3'];

function whyNotSpeaking(demand: PrimingDemand, evidence: DryLiftEvidence): string | null {
  if (evidence.staticLiftM < demand.staticLiftM) {
    return `The lift was ${evidence.staticLiftM.toFixed(3)} m; the demand is for ${demand.staticLiftM.toFixed(3)} m.`;
  }
  if (evidence.speedRevPerS > demand.atMostSpeedRevPerS * (1 + SPEED_TOLERANCE)) {
    return `The pump turned at ${printRpm(evidence.speedRevPerS)} r/min; the demand allows ${printRpm(demand.atMostSpeedRevPerS)} r/min at most.`;
  }
  if (WETNESS_ORDER.indexOf(evidence.wetness) > WETNESS_ORDER.indexOf(demand.wetness)) {
    return `The pump was in wetness class ${evidence.wetness}; the demand is for ${demand.wetness} or drier.`;
  }
  return null;
}

/** What one dry start says of a demand, as if one were enough. */
export function judgeOneStart(demand: PrimingDemand, evidence: DryLiftEvidence): DemandVerdict {
  const silent = { demand, verdict: 'not proven', speaks: false, value: null, conformityProbability: null } as const;
  const why = whyNotSpeaking(demand, evidence);
  if (why !== null) return { ...silent, reason: why };
  const { priming } = evidence;
  if (priming.primed) {
    const judgement = judge(priming.primingTimeS, { atMost: demand.atMostS });
    return {
      demand,
      ...judgement,
      speaks: true,
      value: priming.primingTimeS,
      reason: 'Judged: priming time of the one start.',
    };
  }
  const watched = `Oil had not arrived ${priming.watchedForS.toFixed(1)} s after motor start`;
  if (priming.watchedForS < demand.atMostS) {
    return { ...silent, speaks: true, reason: `${watched}, and the demand allows ${demand.atMostS} s: watch longer.` };
  }
  return { ...silent, verdict: 'fail', speaks: true, conformityProbability: 0, reason: `${watched}.` };
}

/** What one dry start says of one demand; a delivery demand is for another run, and repeats are for several together. */
export function judgeDryLiftDemand(demand: Demand, evidence: DryLiftEvidence): DemandVerdict {
  if (demand.quantity !== 'primingTime') {
    const silent = { demand, verdict: 'not proven', speaks: false, value: null, conformityProbability: null } as const;
    return { ...silent, reason: 'A dry start does not speak to delivery.' };
  }
  const judged = judgeOneStart(demand, evidence);
  if (demand.starts === 1 || judged.verdict !== 'pass') return judged;
  return {
    ...judged,
    verdict: 'not proven',
    conformityProbability: null,
    reason: `This start kept the demand; ${demand.starts} starts prepared alike are asked for, and a certificate on all of them decides.`,
  };
}
