import { deliveredFlow } from '../delivery/deliveredFlow.ts';
import type { DrainLaw } from '../delivery/drainLaw.ts';
import { certainPoint, fittedFlow, flowAtUncertainPoint } from '../delivery/slipLaw.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import type { SlipLaw } from '../result.ts';
import { combine, exactly, type Uncertain } from '../uncertainty/source.ts';
import { type SpokenOil, spokenOilState } from './spokenOil.ts';

/** A fitted law and the oil at which it is spoken. */
export type LawEvidence = {
  readonly law: Pick<SlipLaw, 'coefficients' | 'uncertain' | 'range'>;
  readonly oil: SpokenOil;
  /** The oil that the law was measured with. */
  readonly runOil: OilRecord;
  /** What tells the flow at the outlet from that at the inlet; null: the flow is spoken at the inlet. */
  readonly outlet: {
    readonly drain: Pick<DrainLaw, 'drainCoefficientM3'> | null;
    readonly bulkModulusPa: Uncertain;
  } | null;
};

/** Where a law is spoken. */
export type SpokenPoint = {
  readonly speedRevPerS: number;
  readonly differentialPressurePa: number;
  /** At the pump inlet. */
  readonly oilTemperatureK: number;
};

type FittedLaw = Pick<SlipLaw, 'coefficients' | 'uncertain'>;

/** The law with its gaps opened or closed: C_l times a factor. */
export function lawAtClearance(law: FittedLaw, laminarFactor: Uncertain): FittedLaw {
  const { laminarSlipM3 } = law.uncertain;
  const coefficientM3 = law.coefficients.laminarSlipM3 * laminarFactor.value;
  return {
    coefficients: { ...law.coefficients, laminarSlipM3: coefficientM3 },
    uncertain: {
      ...law.uncertain,
      laminarSlipM3: combine(coefficientM3, [
        { input: laminarSlipM3, derivative: laminarFactor.value },
        { input: laminarFactor, derivative: laminarSlipM3.value },
      ]),
    },
  };
}

/**
 * Flow at the outlet port that a fitted law gives at a point, with the errors of the law, of the oil and of the change of
 * clearance: q₂ = (q₁ − C_d Δp/µ)(1 − Δp/K), or q₁ itself where the evidence says nothing of drain and bulk modulus.
 *
 * @param evidence - law, oil and what tells outlet from inlet [-]
 * @param at - exactly known point [rev/s, Pa, K]
 * @param laminarFactor - by which C_l differs at this temperature from that of the run; 1: not at all [1]
 * @returns flow [m³/s]
 * @throws RangeError if the temperature is not one an oil can have
 *
 * Source: JCGM 100:2008, 5.1 and 5.2.2; the laws as fitted. The drain's coefficient is taken as it was in the run.
 */
export function spokenFlow(
  evidence: Pick<LawEvidence, 'oil' | 'outlet'> & { readonly law: FittedLaw },
  at: SpokenPoint,
  laminarFactor: Uncertain = exactly(1),
): Uncertain {
  const law = lawAtClearance(evidence.law, laminarFactor);
  const point = {
    speedRevPerS: exactly(at.speedRevPerS),
    differentialPressurePa: exactly(at.differentialPressurePa),
    ...spokenOilState(evidence.oil, at.oilTemperatureK),
  };
  const { outlet } = evidence;
  if (outlet !== null) return deliveredFlow(law, outlet.drain, point, outlet.bulkModulusPa);
  const byLaw = fittedFlow(law, certainPoint(point));
  return combine(byLaw.value, [
    { input: byLaw, derivative: 1 },
    { input: flowAtUncertainPoint(law.coefficients, point), derivative: 1 },
  ]);
}

/** What is taken from the flow at the inlet on its way to the outlet: q₂ = (q₁ − drain) × ratio. */
export type OutletStep = {
  /** C_d, 0 where there is none [m³]. */
  readonly drainCoefficientM3: number;
  readonly densityRatio: number;
};

/**
 * How outlet flow follows from inlet flow at a pressure difference.
 *
 * @param outlet - drain and bulk modulus; null: the flow is spoken at the inlet [-]
 * @param differentialPressurePa - Δp [Pa]
 * @returns drain coefficient and ρ₁/ρ₂ = 1 − Δp/K [m³, 1]
 */
export function outletStep(outlet: LawEvidence['outlet'], differentialPressurePa: number): OutletStep {
  return {
    drainCoefficientM3: outlet?.drain?.drainCoefficientM3.value ?? 0,
    densityRatio: outlet === null ? 1 : 1 - differentialPressurePa / outlet.bulkModulusPa.value,
  };
}
