import { LAW_TERMS, type LawTerm, type SlipLaw } from '../result.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';

/** State at which the slip law is spoken. */
export type LawPoint = {
  /** [rev/s] */
  readonly speedRevPerS: number;
  /** Delivery minus suction [Pa]. */
  readonly differentialPressurePa: number;
  /** At the pump inlet [Pa s]. */
  readonly dynamicViscosityPaS: number;
  /** At the pump inlet [kg/m³]. */
  readonly densityKgPerM3: number;
};

/**
 * The law's regressors at a point: flow is their dot product with the coefficients.
 * q = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp
 *
 * @param point - speed [rev/s], pressure difference [Pa], viscosity [Pa s] and density [kg/m³]
 * @returns n, −Δp/µ, −√(2Δp/ρ), −n Δp, in the order of LAW_TERMS [rev/s, 1/s, m/s, Pa rev/s]
 *
 * Source: laminar term Wilson (1946), Trans. ASME 68; orifice term Schlösser (1961); no term in n alone, which could
 * not be told from V_i. A negative Δp leaks forwards: the root keeps its sign.
 */
export function lawRegressors(point: LawPoint): Readonly<Record<LawTerm, number>> {
  const { speedRevPerS, differentialPressurePa, dynamicViscosityPaS, densityKgPerM3 } = point;
  return {
    derivedCapacityM3PerRev: speedRevPerS,
    laminarSlipM3: -differentialPressurePa / dynamicViscosityPaS,
    orificeSlipM2:
      -Math.sign(differentialPressurePa) * Math.sqrt((2 * Math.abs(differentialPressurePa)) / densityKgPerM3),
    speedPressureSlipM3PerPa: -speedRevPerS * differentialPressurePa,
  };
}

/**
 * Flow that the fitted law gives at a point, with the sensitivities of the full admissible model.
 *
 * @param law - a fitted law
 * @param point - where it is spoken; the caller says so when it lies outside law.range
 * @returns flow at the outlet [m³/s]
 */
export function fittedFlow(law: SlipLaw, point: LawPoint): Uncertain {
  const regressors = lawRegressors(point);
  const flowM3PerS = LAW_TERMS.reduce((sum, term) => sum + law.coefficients[term] * regressors[term], 0);
  return combine(
    flowM3PerS,
    law.terms.map((term) => ({ input: law.uncertain[term], derivative: regressors[term] })),
  );
}

/** Slip that the fitted law gives at a point, theoretical minus delivered: V_i n − q [m³/s]. */
export function fittedSlip(law: SlipLaw, point: LawPoint): Uncertain {
  const flow = fittedFlow(law, point);
  const capacity = law.uncertain.derivedCapacityM3PerRev;
  return combine(law.coefficients.derivedCapacityM3PerRev * point.speedRevPerS - flow.value, [
    { input: capacity, derivative: point.speedRevPerS },
    { input: flow, derivative: -1 },
  ]);
}
