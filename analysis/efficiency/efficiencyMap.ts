import { certainPoint, lawFlow, lawRegressors } from '../delivery/slipLaw.ts';
import { evenly } from '../evenly.ts';
import { LAW_TERMS } from '../result.ts';
import { exactly, type SourceTable, type Uncertain } from '../uncertainty/source.ts';
import type { ClearanceChange } from './clearanceChange.ts';
import { linearBand } from './linearBand.ts';
import { type Beyond, beyondMeasured } from './measuredRange.ts';
import { type LawEvidence, lawAtClearance, outletStep } from './spokenLaw.ts';
import { spokenOilState } from './spokenOil.ts';

/** From the first to the last, evenly: [low, high] and how many. */
export type MapAxis = { readonly from: number; readonly to: number; readonly count: number };

export type MapRequest = {
  readonly oilTemperatureK: number;
  readonly speedRevPerS: MapAxis;
  readonly differentialPressurePa: MapAxis;
};

/** One efficiency over the grid, speed by speed within each pressure; each ± its expanded uncertainty (95 %) [1]. */
export type MapSheet = {
  readonly values: readonly number[];
  readonly expandedUncertainties: readonly number[];
};

/** Efficiency over speed and pressure at one oil and temperature. */
export type EfficiencyMap = {
  readonly oilName: string;
  readonly oilTemperatureK: number;
  readonly dynamicViscosityPaS: number;
  readonly densityKgPerM3: number;
  /** Rising; the quicker index of the sheets. */
  readonly speedsRevPerS: readonly number[];
  /** Rising; the slower index of the sheets. */
  readonly differentialPressuresPa: readonly number[];
  /** q/(V_i n), ISO 4391. */
  readonly derivedEfficiency: MapSheet;
  /** q/(V_g n): delivery against geometry. */
  readonly geometricEfficiency: MapSheet;
  /** Cell by cell: outside what was measured, in whatever. */
  readonly isExtrapolated: readonly boolean[];
  /** What lies outside the measured in every cell, temperature and viscosity being those of the whole map. */
  readonly beyondEverywhere: readonly Beyond[];
  /** How the change of the clearances entered, in words. */
  readonly clearances: string;
};

function stepsOf(name: string, { from, to, count }: MapAxis): readonly number[] {
  if (!(Number.isInteger(count) && count >= 2)) throw new RangeError(`${name}.count: ${count}, expected 2 or more`);
  if (!(from < to)) throw new RangeError(`${name}: from ${from} to ${to}, expected rising`);
  return evenly(from, to, count);
}

/**
 * The efficiency map: η_V = q/(V_i n) and q/(V_g n) of the fitted law over speed and pressure, at one oil and temperature,
 * each with its band from the law, the oil, the change of the clearances and V_g. What lies outside the measured range is
 * marked. q is the flow at the outlet port, where drain and bulk modulus are known, else that at the inlet.
 *
 * @param evidence - law, oil and the run's oil [-]
 * @param sweptVolume - V_g, > 0 [m³/rev]
 * @param change - of the clearances between the run's temperature and the map's [1]
 * @param request - temperature, and the axes with two steps or more, speeds above zero, pressures rising [K, rev/s, Pa]
 * @param sources - every source of law, oil, clearances and V_g [-]
 * @returns the map, ready to be kept as JSON [1]
 * @throws RangeError if an axis is not rising, a speed or V_g is not above zero, or a source is missing
 *
 * Source: ISO 4391:1984 (η_V); JCGM 100:2008, 5.1. With η = Σ θ_k r_k/(V n), ∂η/∂θ_k = r_k/(V n), and of V_i besides −η/V_i.
 */
export function efficiencyMap(
  evidence: LawEvidence,
  sweptVolume: Uncertain,
  change: Pick<ClearanceChange, 'factor' | 'inWords'>,
  request: MapRequest,
  sources: SourceTable,
): EfficiencyMap {
  const speedsRevPerS = stepsOf('speedRevPerS', request.speedRevPerS);
  const differentialPressuresPa = stepsOf('differentialPressurePa', request.differentialPressurePa);
  if (!(request.speedRevPerS.from > 0))
    throw new RangeError(`speedRevPerS.from: ${request.speedRevPerS.from}, not above 0`);
  if (!(sweptVolume.value > 0)) throw new RangeError(`sweptVolume: ${sweptVolume.value}, not above 0`);
  const { coefficients, uncertain } = lawAtClearance(evidence.law, change.factor);
  const state = spokenOilState(evidence.oil, request.oilTemperatureK);
  const viscosityPaS = state.dynamicViscosityPaS.value;
  const densityKgPerM3 = state.densityKgPerM3.value;
  const capacityM3PerRev = coefficients.derivedCapacityM3PerRev;
  const { outlet } = evidence;
  const bulkModulusPa = outlet?.bulkModulusPa ?? exactly(Number.MAX_VALUE);
  const bandOf = linearBand(
    [
      ...LAW_TERMS.map((term) => uncertain[term]),
      state.dynamicViscosityPaS,
      state.densityKgPerM3,
      outlet?.drain?.drainCoefficientM3 ?? exactly(0),
      bulkModulusPa,
      sweptVolume,
    ],
    sources,
  );

  const sheet = () => {
    const values: number[] = [];
    const expandedUncertainties: number[] = [];
    return { values, expandedUncertainties };
  };
  const derivedEfficiency = sheet();
  const geometricEfficiency = sheet();
  const isExtrapolated: boolean[] = [];
  for (const differentialPressurePa of differentialPressuresPa) {
    for (const speedRevPerS of speedsRevPerS) {
      const point = certainPoint({
        speedRevPerS: exactly(speedRevPerS),
        differentialPressurePa: exactly(differentialPressurePa),
        ...state,
      });
      const regressors = lawRegressors(point);
      const { drainCoefficientM3, densityRatio } = outletStep(outlet, differentialPressurePa);
      const atInletM3PerS = lawFlow(coefficients, point) + drainCoefficientM3 * regressors.laminarSlipM3;
      const flowM3PerS = atInletM3PerS * densityRatio;
      const byViscosity =
        ((coefficients.laminarSlipM3 + drainCoefficientM3) * differentialPressurePa) / viscosityPaS ** 2;
      const flowSlopes = [
        ...LAW_TERMS.map((term) => regressors[term]),
        byViscosity,
        -(coefficients.orificeSlipM2 * regressors.orificeSlipM2) / (2 * densityKgPerM3),
        regressors.laminarSlipM3,
      ].map((slope) => slope * densityRatio);
      flowSlopes.push((atInletM3PerS * differentialPressurePa) / bulkModulusPa.value ** 2);
      const derivedM3PerS = capacityM3PerRev * speedRevPerS;
      const geometricM3PerS = sweptVolume.value * speedRevPerS;
      const derived = flowM3PerS / derivedM3PerS;
      const geometric = flowM3PerS / geometricM3PerS;
      const ofDerived = flowSlopes.map((slope) => slope / derivedM3PerS);
      ofDerived[0] = (ofDerived[0] ?? 0) - derived / capacityM3PerRev;
      const ofGeometric = flowSlopes.map((slope) => slope / geometricM3PerS);
      derivedEfficiency.values.push(derived);
      derivedEfficiency.expandedUncertainties.push(bandOf([...ofDerived, 0]).expandedUncertainty);
      geometricEfficiency.values.push(geometric);
      geometricEfficiency.expandedUncertainties.push(
        bandOf([...ofGeometric, -geometric / sweptVolume.value]).expandedUncertainty,
      );
      const at = { speedRevPerS, differentialPressurePa, oilTemperatureK: request.oilTemperatureK };
      isExtrapolated.push(beyondMeasured(evidence, at).length > 0);
    }
  }
  const amongTheHolds = {
    speedRevPerS: evidence.law.range.speedRevPerS[0],
    differentialPressurePa: evidence.law.range.differentialPressurePa[0],
    oilTemperatureK: request.oilTemperatureK,
  };
  return {
    oilName: evidence.oil.record.name,
    oilTemperatureK: request.oilTemperatureK,
    dynamicViscosityPaS: viscosityPaS,
    densityKgPerM3,
    speedsRevPerS,
    differentialPressuresPa,
    derivedEfficiency,
    geometricEfficiency,
    isExtrapolated,
    beyondEverywhere: beyondMeasured(evidence, amongTheHolds),
    clearances: change.inWords,
  };
}
