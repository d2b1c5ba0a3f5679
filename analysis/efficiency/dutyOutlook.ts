import type { SlipFit } from '../delivery/fitSlip.ts';
import { type Outcome, refusalOf } from '../outcome.ts';
import type { Demand } from '../records/dutyRecord.ts';
import type { DutyOutlook } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import type { Source } from '../uncertainty/source.ts';
import { type ClearanceChange, runTemperatureOf } from './clearanceChange.ts';
import { hottestOil } from './hottestOil.ts';
import type { LawSpeaker, Spoken } from './lawSpeaker.ts';
import { proposeTestOil } from './proposeTestOil.ts';
import { slowestSpeed } from './slowestSpeed.ts';
import type { SpokenPoint } from './spokenLaw.ts';

/** A demand that names an operating point. */
export type PointDemand = Extract<Demand, { readonly at: unknown }>;

/** To which a workshop has a test oil's viscosity measured, relative; common practice, no source [1]. */
const TEST_OIL_STANDARD_UNCERTAINTY = 0.01;

/** Of a plain mineral oil; common practice, no source [1]. */
const PLAIN_VISCOSITY_INDEX = 95;

export function isPointDemand(demand: Demand): demand is PointDemand {
  return 'at' in demand;
}

function neededFlow(demand: PointDemand, capacityM3PerRev: number): number {
  return demand.quantity === 'deliveredFlow'
    ? demand.atLeastM3PerS
    : demand.atLeast * capacityM3PerRev * demand.at.speedRevPerS;
}

function statedSpeed(
  found: ReturnType<typeof slowestSpeed>,
  state: ReturnType<LawSpeaker['stateWith']>,
): DutyOutlook['slowestHoldingPressure'] {
  if (!found.ok) return refusalOf(found.reason);
  return { ok: true, value: { speedRevPerS: state(found.value.speedRevPerS), beyond: found.value.beyond } };
}

function statedHottest(
  speaker: LawSpeaker,
  duty: { readonly differentialPressurePa: number; readonly atLeastM3PerS: number },
  speedRevPerS: number,
): DutyOutlook['hottestOil'] {
  const hottest = hottestOil(speaker.evidence, duty, speedRevPerS, speaker.clearancesAt);
  if (hottest.kind === 'partsBind') return { ...hottest, reason: refusalOf(hottest.reason).reason };
  if (hottest.kind !== 'limit') return hottest;
  const { kind, temperatureK, beyond, sources } = hottest;
  return { kind, temperatureK: speaker.stateWith(sources)(temperatureK), beyond };
}

/** Fit, its holds, and every source of a run. */
export type OutlookRun = {
  readonly fit: SlipFit;
  readonly fitted: readonly HoldState[];
  readonly sources: readonly Source[];
};

function testOilAt(
  speaker: LawSpeaker,
  run: OutlookRun,
  duty: SpokenPoint,
  change: ClearanceChange,
): DutyOutlook['testOil'] {
  const proposal = proposeTestOil({
    holds: run.fitted,
    fit: run.fit,
    machineOil: speaker.evidence.runOil,
    benchTemperatureK: runTemperatureOf(speaker.evidence.law.range),
    duty,
    change,
    testOilStandardUncertainty: TEST_OIL_STANDARD_UNCERTAINTY,
    viscosityIndex: PLAIN_VISCOSITY_INDEX,
    sources: run.sources,
  });
  if (!proposal.ok) return refusalOf(proposal.reason);
  const { grade, viscosityAtBenchM2PerS, wantedM2PerS, matchingTemperatureK, uncertaintyRatio, before, after } =
    proposal.value;
  return {
    ok: true,
    value: { grade, viscosityAtBenchM2PerS, wantedM2PerS, matchingTemperatureK, uncertaintyRatio, before, after },
  };
}

/** Outlooks by demand; what two demands at one point would both ask is asked once. */
export function dutyOutlooks(
  speaker: LawSpeaker,
  run: OutlookRun,
  demands: readonly PointDemand[],
): readonly DutyOutlook[] {
  const found: { readonly at: string; readonly outlook: DutyOutlook }[] = [];
  for (const demand of demands) {
    const at = JSON.stringify(demand.at);
    const testOil = found.find((entry) => entry.at === at)?.outlook.testOil ?? null;
    const outlook = dutyOutlook(speaker, run, demand, testOil);
    if (outlook.ok) found.push({ at, outlook: outlook.value });
  }
  return found.map(({ outlook }) => outlook);
}

/**
 * What a law says about an operating point that the machine asks for: what the pump delivers there, how slow it may turn,
 * how hot the oil may get, and which test oil would have the hot oil's viscosity on a cool bench.
 *
 * @param speaker - the law, ready to be asked [-]
 * @param run - fit, its holds, and every source of the run [-]
 * @param demand - with its operating point [-]
 * @param testOil - proposed for this very point before; null: not yet [-]
 * @returns the outlook, or why the law cannot be spoken there [SI]
 */
export function dutyOutlook(
  speaker: LawSpeaker,
  run: OutlookRun,
  demand: PointDemand,
  testOil: DutyOutlook['testOil'] | null = null,
): Outcome<DutyOutlook, { readonly code: string; readonly text: string }> {
  const spoken = speaker.at(demand.at);
  if (!spoken.ok) return spoken;
  const { change, flowM3PerS, slipM3PerS, derivedEfficiency }: Spoken = spoken.value;
  const state = speaker.stateWith(change.sources);
  const { differentialPressurePa, speedRevPerS, oilTemperatureK } = demand.at;
  const needed = neededFlow(demand, run.fit.coefficients.derivedCapacityM3PerRev);
  const duty = { differentialPressurePa, atLeastM3PerS: needed };
  const slowest = (atLeastM3PerS: number) =>
    statedSpeed(
      slowestSpeed(speaker.evidence, { differentialPressurePa, atLeastM3PerS }, oilTemperatureK, change.factor),
      state,
    );
  return {
    ok: true,
    value: {
      demandId: demand.id,
      flowM3PerS: state(flowM3PerS),
      slipM3PerS: state(slipM3PerS),
      derivedEfficiency: state(derivedEfficiency),
      clearances: change.inWords,
      slowestHoldingPressure: slowest(0),
      slowestMeetingDemand: slowest(needed),
      hottestOil: statedHottest(speaker, duty, speedRevPerS),
      testOil: testOil ?? testOilAt(speaker, run, demand.at, change),
    },
  };
}
