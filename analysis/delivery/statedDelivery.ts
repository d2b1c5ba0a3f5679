import { statedAgainstTheory } from '../againstTheory/statedAgainstTheory.ts';
import { runTemperatureOf } from '../efficiency/clearanceChange.ts';
import { dimensionlessView } from '../efficiency/dimensionlessView.ts';
import { dutyOutlooks, isPointDemand } from '../efficiency/dutyOutlook.ts';
import { type LawSpeaker, lawSpeaker } from '../efficiency/lawSpeaker.ts';
import { mapAt } from '../efficiency/mapAt.ts';
import { runTrials, type TrialRequest } from '../monteCarlo/runTrials.ts';
import { oilStateAt } from '../oil/oilStateAt.ts';
import { refusalOf, yes } from '../outcome.ts';
import type { RunRecord } from '../records/runRecord.ts';
import type { DeliveryResult, Fitted } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { exactly, type Source, type SourceTable, sourceTable, type Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { barometerOf, type DeliveryAnalysis, type FittedRun } from './analyseDelivery.ts';
import { nextBestHold } from './nextBestHold.ts';
import { statedHolds } from './statedHolds.ts';
import { statedChecks, statedDrain, statedLaw, statedTwoStep } from './statedLaw.ts';

/** Steps of the map that a result carries, along each axis: one at another temperature, or finer, is asked for. */
const MAP_STEPS = 11;

function nextHoldOf(
  run: RunRecord,
  { fit, range }: FittedRun,
  fitted: readonly HoldState[],
  table: SourceTable,
): Fitted['nextHold'] {
  const { min, max } = run.pump.speedRangeRevPerS;
  const [lowestPa, highestPa] = range.differentialPressurePa;
  const reach = {
    speedRevPerS: [Math.min(min, range.speedRevPerS[0]), Math.max(max, range.speedRevPerS[1])],
    differentialPressurePa: [Math.max(0, lowestPa), Math.max(0, highestPa)],
  } as const;
  const demand = run.pump.duty?.demands.find(isPointDemand);
  const state = (value: Uncertain) => stateUncertainty(value, table);
  if (demand === undefined) {
    return { goal: 'derivedCapacity', ...nextBestHold(fit, fitted, reach, { kind: 'derivedCapacity' }, state) };
  }
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = demand.at;
  const oil = oilStateAt(run.oil, exactly(oilTemperatureK));
  const at = {
    speedRevPerS,
    differentialPressurePa,
    dynamicViscosityPaS: oil.dynamicViscosityPaS.value,
    densityKgPerM3: oil.densityKgPerM3.value,
  };
  return { goal: 'flow', ...nextBestHold(fit, fitted, reach, { kind: 'flow', at }, state) };
}

/** The law of a delivery run, ready to be asked. */
export function speakerOf(run: RunRecord, { fit, range, drain }: FittedRun, sources: readonly Source[]): LawSpeaker {
  const law = { coefficients: fit.coefficients, uncertain: fit.uncertain, range };
  return lawSpeaker(run, law, drain?.ok ? drain.value : null, sources);
}

/**
 * A delivery run in numbers that can be printed: every value with its expanded uncertainty and budget.
 *
 * @param run - run record [-]
 * @param analysis - holds and law [-]
 * @param sweptVolume - V_g [m³/rev]
 * @param sources - every source of the run [-]
 * @param trials - Monte Carlo trials that are asked for; null: none [-]
 * @returns holds, law, and what follows from it [SI]
 */
export function statedDelivery(
  run: RunRecord,
  analysis: DeliveryAnalysis,
  sweptVolume: Uncertain,
  sources: readonly Source[],
  trials: TrialRequest | null,
): DeliveryResult {
  const { holds, fitted: outcome } = analysis;
  const table = sourceTable(sources);
  const state = (value: Uncertain) => stateUncertainty(value, table);
  const stated = statedHolds(holds, outcome.ok ? outcome.value.fit : null, sweptVolume, barometerOf(run), state);
  if (!outcome.ok) return { holds: stated, law: refusalOf(outcome.reason), capacityRatio: null, fitted: null };
  const { value } = outcome;
  const speaker = speakerOf(run, value, sources);
  const fitted = holds.filter(({ leftOut }) => leftOut === null);
  const points = run.pump.duty?.demands.filter(isPointDemand) ?? [];
  return {
    holds: stated,
    law: yes(statedLaw(value, state)),
    capacityRatio: state(value.capacityRatio),
    fitted: {
      twoStep: statedTwoStep(value, fitted, state),
      drain: statedDrain(value, state),
      nextHold: nextHoldOf(run, value, fitted, table),
      map: mapAt(speaker, sweptVolume, points[0]?.at.oilTemperatureK ?? runTemperatureOf(value.range), MAP_STEPS),
      dimensionless: dimensionlessView(value.fit, holds),
      outlook: dutyOutlooks(speaker, { fit: value.fit, fitted, sources }, points),
      againstTheory: statedAgainstTheory(run, fitted, value.fit, sweptVolume, sources),
      checks: statedChecks(value.checks, state),
      monteCarlo: trials === null ? null : runTrials(speaker, value.fit, fitted, points, trials),
    },
  };
}
