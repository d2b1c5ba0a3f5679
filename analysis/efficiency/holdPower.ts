import { no, type Outcome, yes } from '../outcome.ts';
import type { HoldState } from '../steady/holdState.ts';
import { combine, type Uncertain } from '../uncertainty/source.ts';
import { idealTorque } from './idealTorque.ts';

/** What a hold says of power, by the torque at the shaft. */
type ShaftPower = {
  /** 2π n T [W]. */
  readonly shaftPowerW: Uncertain;
  /** V_i Δp/(2π) [N m]. */
  readonly idealTorqueNM: Uncertain;
  /** Ideal torque over torque [1]. */
  readonly hydromechanicalEfficiency: Uncertain;
  /** Hydraulic over shaft power [1]. */
  readonly totalEfficiency: Uncertain;
};

/** What a hold says of power, by what the motor draws. */
type MotorPower = {
  /** Hydraulic power over what the motor draws: the motor's own losses are in it [1]. */
  readonly overallEfficiency: Uncertain;
  /** Of the pump alone; null where nobody stated the motor's efficiency [1]. */
  readonly totalEfficiency: Uncertain | null;
  readonly inWords: string;
};

type PowerRefusal = {
  readonly code: 'TORQUE_NOT_POSITIVE' | 'MOTOR_POWER_NOT_POSITIVE';
  readonly text: string;
};

/** Null where the bench has no such channel. */
export type HoldPower = {
  /** p_2e q_2 − p_1e q_1 [W]. */
  readonly hydraulicPowerW: Uncertain;
  readonly shaft: Outcome<ShaftPower, PowerRefusal> | null;
  readonly motor: Outcome<MotorPower, PowerRefusal> | null;
};

function ratio(above: Uncertain, below: Uncertain): Uncertain {
  const value = above.value / below.value;
  return combine(value, [
    { input: above, derivative: 1 / below.value },
    { input: below, derivative: -value / below.value },
  ]);
}

function product(a: Uncertain, b: Uncertain, factor = 1): Uncertain {
  return combine(factor * a.value * b.value, [
    { input: a, derivative: factor * b.value },
    { input: b, derivative: factor * a.value },
  ]);
}

function difference(a: Uncertain, b: Uncertain): Uncertain {
  return combine(a.value - b.value, [
    { input: a, derivative: 1 },
    { input: b, derivative: -1 },
  ]);
}

function shaftPower(hold: HoldState, torqueNM: Uncertain, capacity: Uncertain, hydraulicPowerW: Uncertain) {
  if (!(torqueNM.value > 0)) {
    return no({
      code: 'TORQUE_NOT_POSITIVE',
      text: `Hold ${hold.number}: the torque is ${torqueNM.value.toPrecision(3)} N·m, which no driven pump takes. Look at the sign and the zero of the torque channel.`,
    } as const);
  }
  const shaftPowerW = product(hold.speedRevPerS, torqueNM, 2 * Math.PI);
  const idealTorqueNM = idealTorque(capacity, hold.differentialPressurePa);
  return yes({
    shaftPowerW,
    idealTorqueNM,
    hydromechanicalEfficiency: ratio(idealTorqueNM, torqueNM),
    totalEfficiency: ratio(hydraulicPowerW, shaftPowerW),
  });
}

function motorPower(hold: HoldState, powerW: Uncertain, motorEfficiency: Uncertain | null, hydraulicPowerW: Uncertain) {
  if (!(powerW.value > 0)) {
    return no({
      code: 'MOTOR_POWER_NOT_POSITIVE',
      text: `Hold ${hold.number}: the motor power is ${powerW.value.toPrecision(3)} W, which no driving motor draws. Look at the power channel.`,
    } as const);
  }
  const overallEfficiency = ratio(hydraulicPowerW, powerW);
  return yes({
    overallEfficiency,
    totalEfficiency: motorEfficiency === null ? null : ratio(overallEfficiency, motorEfficiency),
    inWords:
      motorEfficiency === null
        ? "hydraulic power over what the motor draws: the motor's losses are in it, since its efficiency is not stated"
        : "hydraulic power over what the motor draws, less the motor's losses by its stated efficiency",
  });
}

/**
 * Hydromechanical and total efficiency of a hold, from torque, motor power or both: η_hm = Δp V_i/(2π T),
 * η_t = (p_2e q_2 − p_1e q_1)/(2π n T), with effective pressures, above the atmosphere. η_t is η_V η_hm only where inlet
 * and outlet flow are the same. Motor power alone gives an overall figure with the motor's losses in it, unless the motor's
 * efficiency at this load is stated.
 *
 * @param hold - averaged hold [-]
 * @param derivedCapacity - V_i of the fitted law [m³/rev]
 * @param barometer - atmospheric pressure; a source it shares with gauge readings cancels [Pa]
 * @param motorEfficiency - shaft power over electrical power, > 0; null: not stated [1]
 * @returns hydraulic power, and what torque and motor power say; null for a channel the bench does not have [W, N m, 1]
 * @throws RangeError if a stated motor efficiency is not above zero and at most 1
 *
 * Source: ISO 4391 and ISO 4409 for the terms.
 */
export function holdPower(
  hold: HoldState,
  derivedCapacity: Uncertain,
  barometer: Uncertain,
  motorEfficiency: Uncertain | null,
): HoldPower {
  if (motorEfficiency !== null && !(motorEfficiency.value > 0 && motorEfficiency.value <= 1)) {
    throw new RangeError(`motorEfficiency: ${motorEfficiency.value}, expected above 0 to 1`);
  }
  const hydraulicPowerW = difference(
    product(difference(hold.deliveryPressurePa, barometer), hold.flowM3PerS),
    product(difference(hold.suctionPressurePa, barometer), hold.inletFlowM3PerS),
  );
  const { torqueNM, motorPowerW } = hold;
  return {
    hydraulicPowerW,
    shaft: torqueNM === null ? null : shaftPower(hold, torqueNM, derivedCapacity, hydraulicPowerW),
    motor: motorPowerW === null ? null : motorPower(hold, motorPowerW, motorEfficiency, hydraulicPowerW),
  };
}
