import { OIL_EXPANSION_PER_K, OIL_HEAT_J_PER_KG_K } from './oil.ts';

/** What the oil takes up on its way through a pump that is full of it. */
export type WarmFlow = {
  readonly shaftW: number;
  readonly massFlowKgPerS: number;
  readonly densityKgPerM3: number;
  readonly differentialPressurePa: number;
};

export type Warmth = {
  readonly tankK: () => number;
  /** At the pump's outlet port: friction has warmed it, the throttle behind it not yet. */
  readonly outletK: () => number;
  /** At the meter, behind valve and line. */
  readonly meterK: () => number;
  readonly caseK: () => number;
  readonly setTank: (temperatureK: number) => void;
  /** Null: the pump has no oil. */
  readonly advance: (flow: WarmFlow | null, stepS: number) => void;
};

/** Tank of some 10 l, kept warm in a workshop at 20 °C: invented. */
const TANK_J_PER_K = 18_000;
const TANK_LOSS_W_PER_K = 2;
const WORKSHOP_K = 293.15;
/** The line from valve to meter loses this much: invented. */
const LINE_LOSS_W_PER_K = 1.5;
/** Meter body and oil in the line, with flow and without; the casing: invented [s]. */
const METER_LAG_S = 3;
const METER_LAG_AT_REST_S = 600;
const CASE_LAG_S = 120;
/** The casing stands so far between oil and workshop [1]. */
const CASE_SHARE_OF_WORKSHOP = 0.12;
/** Below this flow the oil takes its warmth from the casing alone [kg/s]. */
const LEAST_MASS_FLOW_KG_PER_S = 2e-3;

/** Behind the pump, and behind the throttle. */
type Warmed = { readonly outletK: number; readonly throttledK: number };

/**
 * Steady flow through the pump: ṁ (h₂ − h₁) = P with dh = c dT + (1 − βT) dp/ρ; behind the throttle the pressure is gone
 * again, so that T_throttled − T₁ = P/(ṁ c).
 *
 * @param flow - shaft power [W], mass flow [kg/s], density [kg/m³], pressure difference [Pa]
 * @param inletK - at the pump inlet [K]
 * @returns temperatures; of the inlet where next to nothing flows [K]
 *
 * Source: first law for an open system; derived here.
 */
export function warmedBy(flow: WarmFlow | null, inletK: number): Warmed {
  if (flow === null || flow.massFlowKgPerS <= LEAST_MASS_FLOW_KG_PER_S) return { outletK: inletK, throttledK: inletK };
  const throttledK = inletK + flow.shaftW / (flow.massFlowKgPerS * OIL_HEAT_J_PER_KG_K);
  const pressureK =
    ((1 - OIL_EXPANSION_PER_K * inletK) * flow.differentialPressurePa) / (flow.densityKgPerM3 * OIL_HEAT_J_PER_KG_K);
  return { outletK: throttledK - pressureK, throttledK };
}

/**
 * Temperatures of the bench: tank, outlet, meter behind throttle and line, casing.
 *
 * @param startK - of the oil in the tank at the start [K]
 * @returns the temperatures, and how they go on [K]
 */
export function createWarmth(startK: number): Warmth {
  let tankK = startK;
  let outletK = startK;
  let meterK = startK;
  let caseK = startK - CASE_SHARE_OF_WORKSHOP * (startK - WORKSHOP_K);

  return {
    tankK: () => tankK,
    outletK: () => outletK,
    meterK: () => meterK,
    caseK: () => caseK,
    setTank(temperatureK) {
      tankK = temperatureK;
    },
    advance(flow, stepS) {
      // Everything that turns the shaft of a pump full of oil ends up as heat in the tank.
      tankK += (stepS * ((flow?.shaftW ?? 0) - TANK_LOSS_W_PER_K * (tankK - WORKSHOP_K))) / TANK_J_PER_K;
      const warmed = warmedBy(flow, tankK);
      outletK = warmed.outletK;
      const massFlowKgPerS = flow?.massFlowKgPerS ?? 0;
      const isFlowing = massFlowKgPerS > LEAST_MASS_FLOW_KG_PER_S;
      const lineLossK = isFlowing
        ? (LINE_LOSS_W_PER_K * (warmed.throttledK - WORKSHOP_K)) / (massFlowKgPerS * OIL_HEAT_J_PER_KG_K)
        : warmed.throttledK - WORKSHOP_K;
      meterK += ((warmed.throttledK - lineLossK - meterK) * stepS) / (isFlowing ? METER_LAG_S : METER_LAG_AT_REST_S);
      const caseGoalK = outletK - CASE_SHARE_OF_WORKSHOP * (outletK - WORKSHOP_K);
      caseK += ((caseGoalK - caseK) * stepS) / CASE_LAG_S;
    },
  };
}
