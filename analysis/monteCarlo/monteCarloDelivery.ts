import { type SlipFit, scatterSourceId } from '../delivery/fitSlip.ts';
import { lawRegressors } from '../delivery/slipLaw.ts';
import { volumetricEfficiency } from '../delivery/volumetricEfficiency.ts';
import { type LawEvidence, type SpokenPoint, spokenFlow } from '../efficiency/spokenLaw.ts';
import { type SpokenOil, spokenOilState } from '../efficiency/spokenOil.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { HoldState } from '../steady/holdState.ts';
import { exactly, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import { drawSources } from './drawSources.ts';
import { movedBy, perturbedHold, sourceOrder } from './perturbedHold.ts';
import { smallLeastSquares } from './smallLeastSquares.ts';
import { compareIntervals, type IntervalComparison, type TrialSummary, trialSummary } from './trialSummary.ts';

/** A run and its fit, for trials. */
export type TrialRun = {
  readonly holds: readonly HoldState[];
  readonly fit: SlipFit;
  readonly runOil: OilRecord;
  readonly outlet: LawEvidence['outlet'];
  /** Every source of holds, fit, oils and clearances. */
  readonly sources: SourceTable;
};

/** Where flow and efficiency are asked for. */
export type TrialPoint = SpokenPoint & {
  readonly oil: SpokenOil;
  /** By which C_l differs there from that of the run [1]. */
  readonly laminarFactor: Uncertain;
};

/** One value by both ways. */
type TrialValue = TrialSummary & { readonly comparison: IntervalComparison };

export type MonteCarloDelivery = {
  readonly trials: number;
  /** Trials whose holds could not be fitted or gave no capacity above zero; they are in no interval. */
  readonly failedTrials: number;
  readonly derivedCapacityM3PerRev: TrialValue;
  readonly laminarSlipM3: TrialValue;
  readonly points: readonly { readonly flowM3PerS: TrialValue; readonly derivedEfficiency: TrialValue }[];
};

/**
 * The whole chain of a delivery run by Monte Carlo: every source is drawn by its shape, the holds are moved by it, with the
 * viscosity from the oil's own law, the slip law is fitted anew with its slip coefficients not negative, and capacity,
 * slip, flow and efficiency are taken from that fit. A check on the law of propagation, which takes everything as straight
 * and leaves slip coefficients free.
 *
 * @param run - holds that took part in the fit and others, the fit, oil and sources [-]
 * @param points - where flow and efficiency are asked for [rev/s, Pa, K]
 * @param trials - how many, 1000 or more [-]
 * @param nextUniform - gives numbers strictly between 0 and 1; seeded, the same seed gives the same answer [1]
 * @returns mean, deviation and 95 % intervals of each value beside those by propagation [SI]
 * @throws RangeError if there are fewer than 1000 trials that could be fitted, or a source is missing
 *
 * Source: JCGM 101:2008, 5.9 and 7 (propagation of distributions), 8 (comparison).
 */
export function monteCarloDelivery(
  run: TrialRun,
  points: readonly TrialPoint[],
  trials: number,
  nextUniform: () => number,
): MonteCarloDelivery {
  const { fit, runOil, outlet, sources } = run;
  const { terms, uncertain } = fit;
  const holds = run.holds.filter(({ leftOut }) => leftOut === null);
  const drawn = sourcesDrawn(run, holds, points);
  const order = sourceOrder(drawn);
  const draw = drawSources(drawn, nextUniform);
  const errors = new Float64Array(drawn.length);
  const moved = holds.map((hold) => perturbedHold(hold, runOil, order));
  const solver = smallLeastSquares(holds.length, terms.length, fit.weights);
  const laminarIndex = terms.indexOf('laminarSlipM3');
  const spoken = points.map(({ oil, laminarFactor, ...at }) => {
    const state = spokenOilState(oil, at.oilTemperatureK);
    return {
      at,
      viscosity: movedBy(state.dynamicViscosityPaS, order),
      density: movedBy(state.densityKgPerM3, order),
      factor: movedBy(laminarFactor, order),
      flows: new Float64Array(trials),
      efficiencies: new Float64Array(trials),
    };
  });
  const drain = movedBy(outlet?.drain?.drainCoefficientM3 ?? exactly(0), order);
  const bulkModulus = movedBy(outlet?.bulkModulusPa ?? exactly(Number.MAX_VALUE), order);
  const capacities = new Float64Array(trials);
  const laminar = new Float64Array(trials);

  let done = 0;
  for (let trial = 0; trial < trials; trial += 1) {
    draw(errors);
    for (const [row, hold] of moved.entries()) {
      hold.oilState.at(errors);
      const regressors = lawRegressors({
        speedRevPerS: hold.speedRevPerS(errors),
        differentialPressurePa: hold.differentialPressurePa(errors),
        dynamicViscosityPaS: hold.oilState.dynamicViscosityPaS,
        densityKgPerM3: hold.oilState.densityKgPerM3,
      });
      for (const [column, term] of terms.entries()) solver.design[row * terms.length + column] = regressors[term];
      solver.response[row] = hold.inletFlowM3PerS(errors);
    }
    const capacityM3PerRev = solver.solve() ? (solver.solution[0] ?? 0) : 0;
    if (!(capacityM3PerRev > 0)) continue;
    capacities[done] = capacityM3PerRev;
    laminar[done] = laminarIndex < 0 ? 0 : (solver.solution[laminarIndex] ?? 0);
    for (const { at, viscosity, density, factor, flows, efficiencies } of spoken) {
      const regressors = lawRegressors({
        speedRevPerS: at.speedRevPerS,
        differentialPressurePa: at.differentialPressurePa,
        dynamicViscosityPaS: viscosity(errors),
        densityKgPerM3: density(errors),
      });
      let flowM3PerS = drain(errors) * regressors.laminarSlipM3;
      for (const [column, term] of terms.entries()) {
        const by = term === 'laminarSlipM3' ? factor(errors) : 1;
        flowM3PerS += (solver.solution[column] ?? 0) * regressors[term] * by;
      }
      flowM3PerS *= 1 - at.differentialPressurePa / bulkModulus(errors);
      flows[done] = flowM3PerS;
      efficiencies[done] = flowM3PerS / (capacityM3PerRev * at.speedRevPerS);
    }
    done += 1;
  }

  const bothWays = (values: Float64Array, byPropagation: Uncertain): TrialValue => {
    const summary = trialSummary(values.subarray(0, done));
    return { ...summary, comparison: compareIntervals(stateUncertainty(byPropagation, sources), summary) };
  };
  return {
    trials,
    failedTrials: trials - done,
    derivedCapacityM3PerRev: bothWays(capacities, uncertain.derivedCapacityM3PerRev),
    laminarSlipM3: bothWays(laminar, uncertain.laminarSlipM3),
    points: points.map(({ oil, laminarFactor, ...at }, index) => {
      const flow = spokenFlow({ law: fit, oil, outlet }, at, laminarFactor);
      const efficiency = volumetricEfficiency(flow, uncertain.derivedCapacityM3PerRev, exactly(at.speedRevPerS));
      const kept = spoken[index];
      return {
        flowM3PerS: bothWays(kept?.flows ?? new Float64Array(), flow),
        derivedEfficiency: bothWays(kept?.efficiencies ?? new Float64Array(), efficiency),
      };
    }),
  };
}

/** The sources that anything in the trials is sensitive to, in the order of the table. */
function sourcesDrawn(run: TrialRun, holds: readonly HoldState[], points: readonly TrialPoint[]) {
  const ids = new Set<string>();
  const note = ({ sensitivities }: Uncertain): void => {
    for (const id of Object.keys(sensitivities)) ids.add(id);
  };
  for (const hold of holds) {
    for (const value of [
      hold.speedRevPerS,
      hold.differentialPressurePa,
      hold.inletFlowM3PerS,
      hold.oilTemperatureK,
      hold.dynamicViscosityPaS,
      hold.densityKgPerM3,
    ]) {
      note(value);
    }
    ids.add(scatterSourceId(hold));
  }
  if (run.outlet !== null) {
    note(run.outlet.bulkModulusPa);
    if (run.outlet.drain !== null) note(run.outlet.drain.drainCoefficientM3);
  }
  for (const { oil, laminarFactor, oilTemperatureK } of points) {
    const state = spokenOilState(oil, oilTemperatureK);
    for (const value of [state.dynamicViscosityPaS, state.densityKgPerM3, laminarFactor]) note(value);
  }
  const known = new Set(Object.keys(run.sources));
  for (const id of ids) if (!known.has(id)) throw new RangeError(`sources: none is called ${id}`);
  return Object.values(run.sources).filter(({ id }) => ids.has(id));
}
