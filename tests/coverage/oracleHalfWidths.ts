import { analyseDelivery } from '../../analysis/delivery/analyseDelivery.ts';
import { flowAtUncertainPoint, lawRegressors } from '../../analysis/delivery/slipLaw.ts';
import { sweptVolumeOf } from '../../analysis/displacement/sweptVolume.ts';
import { oilStateAt } from '../../analysis/oil/oilStateAt.ts';
import type { OilRecord } from '../../analysis/records/oilRecord.ts';
import { LAW_TERMS, type RunResult } from '../../analysis/result.ts';
import { combine, exactly, type Uncertain } from '../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../analysis/uncertainty/stateUncertainty.ts';
import { accepted } from '../support/accepted.ts';
import type { OracleHalfWidths } from './figures.ts';
import { type OracleLaw, oracleLaw } from './oracleLaw.ts';
import { DUTY, type RecordedBench } from './recordHealthy.ts';

/** Slip of a law at the duty, V_i n − q₁, with the errors of the oil that the duty names. */
function slipAtDuty(law: OracleLaw, oil: OilRecord): Uncertain {
  const at = {
    speedRevPerS: exactly(DUTY.speedRevPerS),
    differentialPressurePa: exactly(DUTY.differentialPressurePa),
    ...oilStateAt(oil, exactly(DUTY.oilTemperatureK)),
  };
  const regressors = lawRegressors({
    ...DUTY,
    dynamicViscosityPaS: at.dynamicViscosityPaS.value,
    densityKgPerM3: at.densityKgPerM3.value,
  });
  const slipTerms = LAW_TERMS.filter((term) => term !== 'derivedCapacityM3PerRev');
  const value = slipTerms.reduce((sum, term) => sum - law.coefficients[term] * regressors[term], 0);
  return combine(value, [
    ...slipTerms.map((term) => ({ input: law.uncertain[term], derivative: -regressors[term] })),
    { input: flowAtUncertainPoint(law.coefficients, at), derivative: -1 },
  ]);
}

/**
 * Half widths of one who knows the form of the law. Flow and efficiency are taken at the inlet: to the outlet port it is
 * 1e-4 of the flow, known to a tenth of that.
 *
 * @param bench - a recorded run [-]
 * @param result - its result, whose sources are taken over [-]
 * @returns half widths of the 95 % intervals [m³/rev, m³/s, 1, m³/s]
 */
export function oracleHalfWidths({ run, decoded }: RecordedBench, result: RunResult): OracleHalfWidths {
  const { sweptVolume } = accepted(sweptVolumeOf(run.pump.geometry));
  // Sources of the bench alone: those of holds and fit are made anew.
  const base = Object.values(result.sources).filter(({ id }) => !/^(hold|run|fit)\./.test(id));
  const analysis = analyseDelivery(run, decoded.readings, sweptVolume, [], base);
  const law = oracleLaw(analysis.holds, accepted(analysis.fitted).fit.weights);
  const capacity = law.uncertain.derivedCapacityM3PerRev;
  const slip = slipAtDuty(law, run.oil);
  const { speedRevPerS } = DUTY;
  const theoreticalM3PerS = capacity.value * speedRevPerS;
  const flow = combine(theoreticalM3PerS - slip.value, [
    { input: capacity, derivative: speedRevPerS },
    { input: slip, derivative: -1 },
  ]);
  const efficiency = combine(1 - slip.value / theoreticalM3PerS, [
    { input: slip, derivative: -1 / theoreticalM3PerS },
    { input: capacity, derivative: slip.value / theoreticalM3PerS / capacity.value },
  ]);
  const halfWidth = (value: Uncertain): number => stateUncertainty(value, result.sources).expandedUncertainty;
  return {
    capacity: halfWidth(capacity),
    slip: halfWidth(slip),
    efficiency: halfWidth(efficiency),
    flow: halfWidth(flow),
  };
}
