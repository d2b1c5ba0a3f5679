import { fittedFlow, flowAtUncertainPoint } from '../delivery/slipLaw.ts';
import { oilStateAt } from '../oil/oilStateAt.ts';
import type { Demand, OperatingPoint } from '../records/dutyRecord.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { DemandVerdict, SlipLaw } from '../result.ts';
import { combine, exactly, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { judge, type Limit } from './judge.ts';

/** How far outside the measured range a duty point may lie and still be judged [1]. */
const EXTRAPOLATION_SHARE = 0.1;

export type DeliveryEvidence = {
  readonly law: SlipLaw;
  readonly capacityRatio: Uncertain;
  readonly oil: OilRecord;
  /** States a value with the run's sources. */
  readonly state: (uncertain: Uncertain) => Stated;
};

function isBeyond(value: number, [low, high]: readonly [number, number]): boolean {
  return value < low - EXTRAPOLATION_SHARE * Math.abs(low) || value > high + EXTRAPOLATION_SHARE * Math.abs(high);
}

/** Flow of the law at the duty's point and oil temperature, the oil's own errors included. */
function flowAtDuty({ law, oil }: DeliveryEvidence, at: OperatingPoint): Uncertain {
  const duty = {
    speedRevPerS: exactly(at.speedRevPerS),
    differentialPressurePa: exactly(at.differentialPressurePa),
    ...oilStateAt(oil, exactly(at.oilTemperatureK)),
  };
  const byPoint = flowAtUncertainPoint(law.coefficients, duty);
  const byLaw = fittedFlow(law, {
    speedRevPerS: at.speedRevPerS,
    differentialPressurePa: at.differentialPressurePa,
    dynamicViscosityPaS: duty.dynamicViscosityPaS.value,
    densityKgPerM3: duty.densityKgPerM3.value,
  });
  return combine(byLaw.value, [
    { input: byLaw, derivative: 1 },
    { input: byPoint, derivative: 1 },
  ]);
}

function valueAndLimit(
  demand: Demand,
  evidence: DeliveryEvidence,
): { readonly value: Uncertain; readonly limit: Limit; readonly words: string } | null {
  switch (demand.quantity) {
    case 'deliveredFlow':
      return {
        value: flowAtDuty(evidence, demand.at),
        limit: { atLeast: demand.atLeastM3PerS },
        words: 'flow of the fitted law at the duty point',
      };
    case 'volumetricEfficiency': {
      const flow = flowAtDuty(evidence, demand.at);
      const capacity = evidence.law.uncertain.derivedCapacityM3PerRev;
      const theoreticalM3PerS = capacity.value * demand.at.speedRevPerS;
      return {
        value: combine(flow.value / theoreticalM3PerS, [
          { input: flow, derivative: 1 / theoreticalM3PerS },
          { input: capacity, derivative: -flow.value / (theoreticalM3PerS * capacity.value) },
        ]),
        limit: { atLeast: demand.atLeast },
        words: 'flow of the fitted law over derived capacity × speed at the duty point',
      };
    }
    case 'capacityRatio':
      return {
        value: evidence.capacityRatio,
        limit: { atLeast: demand.atLeast, atMost: demand.atMost },
        words: 'derived capacity over swept volume of the geometry',
      };
    case 'primingTime':
      return null;
  }
}

/** What the law says of one demand; a dry-lift demand is for another run. */
export function judgeDeliveryDemand(demand: Demand, evidence: DeliveryEvidence): DemandVerdict {
  const found = valueAndLimit(demand, evidence);
  const silent = { demand, verdict: 'not proven', value: null, conformityProbability: null } as const;
  if (found === null) return { ...silent, speaks: false, reason: 'A delivery run does not speak to dry priming.' };
  const { range } = evidence.law;
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
  const value = evidence.state(found.value);
  return { demand, ...judge(value, found.limit), speaks: true, value, reason: `Judged: ${found.words}.` };
}
