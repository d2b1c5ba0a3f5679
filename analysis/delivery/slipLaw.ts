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

/** The same state with what is known of its errors. */
export type UncertainLawPoint = Readonly<Record<keyof LawPoint, Uncertain>>;

export type Coefficients = Readonly<Record<LawTerm, number>>;

/**
 * The law's regressors at a point: flow is their dot product with the coefficients.
 * q₁ = V_i n − C_l Δp/µ − C_t √(2Δp/ρ) − C_np n Δp
 *
 * @param point - speed, pressure difference, viscosity and density [rev/s, Pa, Pa s, kg/m³]
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
 * Flow that given coefficients yield at a point.
 *
 * @param coefficients - of the law, in SI [m³/rev, m³, m², m³/Pa]
 * @param point - speed, pressure difference, viscosity and density [rev/s, Pa, Pa s, kg/m³]
 * @returns q₁, flow at the inlet [m³/s]
 */
export function lawFlow(coefficients: Coefficients, point: LawPoint): number {
  const regressors = lawRegressors(point);
  return LAW_TERMS.reduce((sum, term) => sum + coefficients[term] * regressors[term], 0);
}

/** A point without its errors. */
export function certainPoint(point: UncertainLawPoint): LawPoint {
  return {
    speedRevPerS: point.speedRevPerS.value,
    differentialPressurePa: point.differentialPressurePa.value,
    dynamicViscosityPaS: point.dynamicViscosityPaS.value,
    densityKgPerM3: point.densityKgPerM3.value,
  };
}

/**
 * Flow that given coefficients yield at a point, sensitive to the errors of the point alone.
 *
 * @param coefficients - of the law, in SI [m³/rev, m³, m², m³/Pa]
 * @param at - state with its errors [rev/s, Pa, Pa s, kg/m³]
 * @returns q₁, flow at the inlet [m³/s]
 */
export function flowAtUncertainPoint(coefficients: Coefficients, at: UncertainLawPoint): Uncertain {
  const point = certainPoint(at);
  const { speedRevPerS, differentialPressurePa, dynamicViscosityPaS, densityKgPerM3 } = point;
  const { derivedCapacityM3PerRev, laminarSlipM3, speedPressureSlipM3PerPa } = coefficients;
  const jetM3PerS = coefficients.orificeSlipM2 * lawRegressors(point).orificeSlipM2;
  return combine(lawFlow(coefficients, point), [
    { input: at.speedRevPerS, derivative: derivedCapacityM3PerRev - speedPressureSlipM3PerPa * differentialPressurePa },
    {
      input: at.differentialPressurePa,
      derivative:
        -laminarSlipM3 / dynamicViscosityPaS -
        speedPressureSlipM3PerPa * speedRevPerS +
        (differentialPressurePa === 0 ? 0 : jetM3PerS / (2 * differentialPressurePa)),
    },
    {
      input: at.dynamicViscosityPaS,
      derivative: (laminarSlipM3 * differentialPressurePa) / dynamicViscosityPaS ** 2,
    },
    { input: at.densityKgPerM3, derivative: -jetM3PerS / (2 * densityKgPerM3) },
  ]);
}

/**
 * Flow that the fitted law gives at an exactly known point, with the sensitivities of the full admissible model.
 *
 * @param law - a fitted law [-]
 * @param point - where it is spoken; the caller says so when it lies outside law.range [rev/s, Pa, Pa s, kg/m³]
 * @returns q₁, flow at the inlet [m³/s]
 */
export function fittedFlow(law: Pick<SlipLaw, 'coefficients' | 'uncertain'>, point: LawPoint): Uncertain {
  const regressors = lawRegressors(point);
  return combine(
    lawFlow(law.coefficients, point),
    LAW_TERMS.map((term) => ({ input: law.uncertain[term], derivative: regressors[term] })),
  );
}
