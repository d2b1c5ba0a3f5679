import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { type GasGap, gasLeakPaM3PerS } from './gasLeak.ts';
import type { OilState } from './oil.ts';

/** The pipe that an oil column climbs in front of a dry pump. */
export type SuctionPipe = {
  readonly staticLiftM: number;
  readonly boreM: number;
  /** From the oil surface to the pump flange; it rises by the lift first and is level after that. */
  readonly lengthM: number;
  /** Below the oil surface. */
  readonly submergedLengthM: number;
  readonly deadVolumeM3: number;
  /** 1 isothermal, 1.4 without any heat from the walls. */
  readonly polytropicExponent: number;
  /** Share of the column's mass that takes part in its acceleration: 1; less approaches a column without inertia. */
  readonly inertiaShare: number;
};

export type Column = {
  /** Length of oil in the pipe above the oil surface. */
  readonly lengthM: number;
  readonly speedMPerS: number;
  /** Absolute pressure of the gas between column and pump. */
  readonly gasPressurePa: number;
};

/** What acts on the column and its gas. */
export type Draw = {
  readonly atmospherePa: number;
  /** Displacement of the pump, V_i n. */
  readonly intakeM3PerS: number;
  readonly deliveryPressurePa: number;
  readonly gap: GasGap;
  readonly carryOverShare: number;
};

export function columnAtRest(atmospherePa: number): Column {
  return { lengthM: 0, speedMPerS: 0, gasPressurePa: atmospherePa };
}

/**
 * The dry start over one short step. Gas: V dp/dt + k p dV/dt = k (−p V_i n + leak-back + carry-over), polytropic with
 * exponent k. Oil: ρ (l₀ + x) dv/dt = p_atm − p − ρ g h(x) − 32 µ (l₀ + x) v/d² − ρ v²/2 (the last for v > 0 only).
 *
 * @param column - oil length [m], its speed [m/s], gas pressure [Pa]
 * @param pipe - lengths [m], dead volume [m³], exponents [1]
 * @param draw - pressures [Pa], displacement [m³/s], gap, carry-over [1]
 * @param oil - viscosity [Pa s] and density [kg/m³]
 * @param stepS - step, well below a tenth of the column's swing on its gas (some 0.2 s) [s]
 * @returns the column a step later; semi-implicit, stable without friction too [m, m/s, Pa]
 *
 * Source: mass balance of the gas, laminar pipe flow after Hagen and Poiseuille; derived here.
 */
export function advanceColumn(column: Column, pipe: SuctionPipe, draw: Draw, oil: OilState, stepS: number): Column {
  const areaM2 = (Math.PI / 4) * pipe.boreM ** 2;
  const wettedM = pipe.submergedLengthM + column.lengthM;
  const massPerAreaKgPerM2 = oil.densityKgPerM3 * wettedM * pipe.inertiaShare;
  const headPa = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * Math.min(column.lengthM, pipe.staticLiftM);
  const resistancePaSPerM =
    (32 * oil.dynamicViscosityPaS * wettedM) / pipe.boreM ** 2 +
    (oil.densityKgPerM3 * Math.max(column.speedMPerS, 0)) / 2;
  const drivePa = draw.atmospherePa - column.gasPressurePa - headPa;
  const speedMPerS =
    (column.speedMPerS + (stepS * drivePa) / massPerAreaKgPerM2) /
    (1 + (stepS * resistancePaSPerM) / massPerAreaKgPerM2);
  const lengthM = column.lengthM + stepS * speedMPerS;
  const fellBack = lengthM <= 0;

  const gasM3 = areaM2 * (pipe.lengthM - column.lengthM) + pipe.deadVolumeM3;
  const backPaM3PerS =
    gasLeakPaM3PerS(draw.gap, draw.deliveryPressurePa, column.gasPressurePa) +
    draw.carryOverShare * draw.intakeM3PerS * draw.deliveryPressurePa;
  const perVolume = (stepS * pipe.polytropicExponent) / gasM3;
  const gasPressurePa =
    (column.gasPressurePa + perVolume * backPaM3PerS) /
    (1 + perVolume * (draw.intakeM3PerS - areaM2 * (fellBack ? 0 : speedMPerS)));
  return { lengthM: fellBack ? 0 : lengthM, speedMPerS: fellBack ? 0 : speedMPerS, gasPressurePa };
}
