import { fitSlip, type SlipFit } from '../delivery/fitSlip.ts';
import { certainPoint, lawFlow } from '../delivery/slipLaw.ts';
import { volumetricEfficiency } from '../delivery/volumetricEfficiency.ts';
import { oilState } from '../oil/oilState.ts';
import { oilStateAt } from '../oil/oilStateAt.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { SlipFitRefusal } from '../result.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, exactly, type Source, type Uncertain } from '../uncertainty/source.ts';
import type { Stated } from '../uncertainty/stated.ts';
import { stateUncertainty } from '../uncertainty/stateUncertainty.ts';
import type { ClearanceChange } from './clearanceChange.ts';
import { mergeSources } from './mergeSources.ts';
import type { SpokenPoint } from './spokenLaw.ts';
import { spokenFlow } from './spokenLaw.ts';
import { spokenOil } from './spokenOil.ts';
import { type TestOilGrade, type TestOilRefusal, testOilGrade } from './testOilGrade.ts';

/** What a run says of the duty, by one oil on the bench. */
type DutyBand = { readonly flowM3PerS: Stated; readonly derivedEfficiency: Stated };

/** A thinner oil for the bench, and what it would do. */
export type TestOilProposal = TestOilGrade & {
  /** The run as planned with the machine's oil, and the same holds with the test oil; both without residuals. */
  readonly before: DutyBand;
  readonly after: DutyBand;
  /** Standard uncertainty of the duty's flow after over before; below 1: the test oil helps [1]. */
  readonly uncertaintyRatio: number;
};

export type TestOilQuestion = {
  readonly holds: readonly HoldState[];
  readonly fit: SlipFit;
  /** The oil of the run and of the machine. */
  readonly machineOil: OilRecord;
  /** At the inlet on the bench [K]. */
  readonly benchTemperatureK: number;
  /** In the machine, hot. */
  readonly duty: SpokenPoint;
  /** Between bench and duty; a cool test oil does not carry it either, so it stands in both. */
  readonly change: Pick<ClearanceChange, 'factor' | 'sources'>;
  /** To which the test oil's viscosity will be measured, relative [1]. */
  readonly testOilStandardUncertainty: number;
  readonly viscosityIndex: number;
  /** Every source of the run: channels, oil, holds. */
  readonly sources: readonly Source[];
};

/** The holds as the fitted law would have them with an oil: same set points, same scatter, no residuals. */
function holdsWith(holds: readonly HoldState[], fit: SlipFit, oil: OilRecord): readonly HoldState[] {
  return holds.map((hold) => {
    const oilState = oilStateAt(oil, hold.oilTemperatureK);
    const repeat: Source = {
      id: `hold.${hold.number}.repeat`,
      label: 'scatter of the holds about the law',
      kind: 'random',
      standardUncertainty: fit.betweenHoldsM3PerS,
      degreesOfFreedom: fit.residualDegreesOfFreedom,
      shape: 'normal',
      pooledAs: 'fit.repeat',
    };
    const flow = lawFlow(fit.coefficients, certainPoint({ ...hold, ...oilState }));
    const inletFlowM3PerS = {
      value: flow,
      sensitivities: { ...hold.inletFlowM3PerS.sensitivities, [repeat.id]: 1 },
    };
    return { ...hold, ...oilState, inletFlowM3PerS, flowM3PerS: inletFlowM3PerS, sources: [...hold.sources, repeat] };
  });
}

/**
 * What the viscosity's fall from bench to duty is uncertain by: each of the oil's two points has its own error, so that
 * the ratio is uncertain by √2 u over the whole way between them, and in proportion to log T over a part of it.
 */
function viscosityRatioSource({ machineOil, benchTemperatureK, duty }: TestOilQuestion): Source {
  const { lower, upper, viscosityRelativeStandardUncertainty } = machineOil;
  const share = Math.log(duty.oilTemperatureK / benchTemperatureK) / Math.log(upper.temperatureK / lower.temperatureK);
  return {
    id: 'oil.viscosityRatio',
    label: 'oil viscosity, from the bench to the hot machine',
    kind: 'calibration',
    standardUncertainty: Math.SQRT2 * viscosityRelativeStandardUncertainty * Math.abs(share),
    degreesOfFreedom: null,
    shape: 'normal',
    pooledAs: null,
  };
}

function bandWith(question: TestOilQuestion, oil: OilRecord): Outcome<DutyBand, SlipFitRefusal> {
  const { fit, machineOil, duty, change } = question;
  const holds = holdsWith(
    question.holds.filter(({ leftOut }) => leftOut === null),
    fit,
    oil,
  );
  const refitted = fitSlip(holds);
  if (!refitted.ok) return refitted;
  const spoken = spokenOil(machineOil, oil);
  const spokenAtDuty = spokenFlow({ law: refitted.value, oil: spoken, outlet: null }, duty, change.factor);
  const ratio = viscosityRatioSource(question);
  const hotPaS = oilState(machineOil, duty.oilTemperatureK).dynamicViscosityPaS;
  const byRatioM3PerS =
    (refitted.value.coefficients.laminarSlipM3 * change.factor.value * duty.differentialPressurePa) / hotPaS;
  const flow = combine(spokenAtDuty.value, [
    { input: spokenAtDuty, derivative: 1 },
    // With another oil on the bench the hot viscosity is an error of its own, and this one is in it.
    { input: { value: 0, sensitivities: { [ratio.id]: 1 } }, derivative: spoken.isOfTheRun ? byRatioM3PerS : 0 },
  ]);
  const ownSources = [...holds.flatMap(({ sources }) => sources), ...refitted.value.sources];
  const own = new Set(ownSources.map(({ id }) => id));
  const isRunOil = (id: string): boolean => id === 'oil.viscosity' || id === 'oil.density';
  const table = mergeSources(
    question.sources.filter(({ id }) => !own.has(id) && !isRunOil(id)),
    ownSources,
    spokenOil(oil, oil).sources,
    spoken.sources,
    change.sources,
    [ratio],
  );
  const state = (value: Uncertain): Stated => stateUncertainty(value, table);
  const capacity = refitted.value.uncertain.derivedCapacityM3PerRev;
  return yes({
    flowM3PerS: state(flow),
    derivedEfficiency: state(volumetricEfficiency(flow, capacity, exactly(duty.speedRevPerS))),
  });
}

/**
 * A thinner oil that has on a cool bench the viscosity that the machine's oil has hot, and what it would do to the
 * uncertainty of flow and efficiency at the duty. Slip measured thick and spoken thin is multiplied by the ratio of the
 * viscosities, its error with it; measured thin it is not. On the other hand the error that one oil's viscosity has at all
 * temperatures cancels between bench and machine, that of two oils does not: the ratio may come out above 1. Both runs are fitted to the law's own flows at the same set points
 * with the same errors, so that only the oil differs.
 *
 * @param question - run, fit, machine's oil, bench temperature, duty and sources [-]
 * @returns grade and temperature, and both bands [m²/s, K, m³/s, 1]; refused where no grade fits or no law can be fitted [-]
 *
 * Source: ISO 3448; the comparison is derived here, by {@link fitSlip} twice.
 */
export function proposeTestOil(question: TestOilQuestion): Outcome<TestOilProposal, TestOilRefusal | SlipFitRefusal> {
  const { machineOil, duty, benchTemperatureK, viscosityIndex, testOilStandardUncertainty } = question;
  const found = testOilGrade(machineOil, duty.oilTemperatureK, benchTemperatureK, viscosityIndex);
  if (!found.ok) return no(found.reason);
  const testOil: OilRecord = {
    ...machineOil,
    name: found.value.grade,
    viscosityBasis: 'measured',
    ...found.value.viscosities,
    viscosityRelativeStandardUncertainty: testOilStandardUncertainty,
  };
  const before = bandWith(question, machineOil);
  if (!before.ok) return before;
  const after = bandWith(question, testOil);
  if (!after.ok) return after;
  return yes({
    ...found.value,
    before: before.value,
    after: after.value,
    uncertaintyRatio: after.value.flowM3PerS.standardUncertainty / before.value.flowM3PerS.standardUncertainty,
  });
}
