import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { type GasGap, gasLeakPaM3PerS } from './gasLeak.ts';
import type { OilState } from './oil.ts';
import type { PipeLeg } from './plant.ts';

/** The pipe that an oil column climbs in front of a dry pump. */
export type SuctionPipe = {
  readonly staticLiftM: number;
  readonly boreM: number;
  /** From the oil surface to the pump flange. */
  readonly lengthM: number;
  /** Its course above the oil surface; without: it rises by the lift first and is level after that. */
  readonly legs?: readonly PipeLeg[] | undefined;
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
  /** Gas that comes in besides, pressure times volume. */
  readonly otherGasPaM3PerS?: number;
};

export function columnAtRest(atmospherePa: number): Column {
  return { lengthM: 0, speedMPerS: 0, gasPressurePa: atmospherePa };
}

/** Height of a place in the pipe over the oil surface [m], by its distance along the pipe [m]. */
export function pipeHeightM(pipe: SuctionPipe, alongM: number): number {
  if (pipe.legs === undefined) return Math.min(alongM, pipe.staticLiftM);
  let heightM = 0;
  let restM = alongM;
  for (const leg of pipe.legs) {
    heightM += leg.riseM * Math.min(1, restM / leg.lengthM);
    restM -= leg.lengthM;
    if (restM <= 0) break;
  }
  return heightM;
}

/**
 * Pressure of a closed gas volume a short step later: V dp/dt + k p dV/dt = k (−p V_i n + gas that comes in), polytropic.
 *
 * @param pressurePa - absolute, at the start of the step [Pa]
 * @param gas - volume now [m³], net volume taken from it: by the pump, less by what shrinks it [m³/s], gas coming in
 *   [Pa m³/s], exponent [1]
 * @param stepS - step [s]
 * @returns absolute pressure at its end, semi-implicit [Pa]
 *
 * Source: mass balance of the gas; derived here.
 */
export function advanceGasPressure(
  pressurePa: number,
  gas: {
    readonly volumeM3: number;
    readonly takenM3PerS: number;
    readonly inPaM3PerS: number;
    readonly exponent: number;
  },
  stepS: number,
): number {
  const perVolume = (stepS * gas.exponent) / gas.volumeM3;
  return (pressurePa + perVolume * gas.inPaM3PerS) / (1 + perVolume * gas.takenM3PerS);
}

/** Gas that leaks and is carried back to the suction side, and what comes in besides [Pa m³/s]. */
export function gasBackPaM3PerS(draw: Draw, suctionPressurePa: number): number {
  return (
    gasLeakPaM3PerS(draw.gap, draw.deliveryPressurePa, suctionPressurePa) +
    draw.carryOverShare * draw.intakeM3PerS * draw.deliveryPressurePa +
    (draw.otherGasPaM3PerS ?? 0)
  );
}

/**
 * The dry start over one short step. Gas as in {@link advanceGasPressure}.
 * Oil: ρ (l₀ + x) dv/dt = p_atm − p − ρ g h(x) − 32 µ (l₀ + x) v/d² − ρ v²/2 (the last for v > 0 only).
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
  const headPa = oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * pipeHeightM(pipe, column.lengthM);
  const resistancePaSPerM =
    (32 * oil.dynamicViscosityPaS * wettedM) / pipe.boreM ** 2 +
    (oil.densityKgPerM3 * Math.max(column.speedMPerS, 0)) / 2;
  const drivePa = draw.atmospherePa - column.gasPressurePa - headPa;
  const speedMPerS =
    (column.speedMPerS + (stepS * drivePa) / massPerAreaKgPerM2) /
    (1 + (stepS * resistancePaSPerM) / massPerAreaKgPerM2);
  const lengthM = column.lengthM + stepS * speedMPerS;
  const fellBack = lengthM <= 0;

  const gasPressurePa = advanceGasPressure(
    column.gasPressurePa,
    {
      volumeM3: areaM2 * (pipe.lengthM - column.lengthM) + pipe.deadVolumeM3,
      takenM3PerS: draw.intakeM3PerS - areaM2 * (fellBack ? 0 : speedMPerS),
      inPaM3PerS: gasBackPaM3PerS(draw, column.gasPressurePa),
      exponent: pipe.polytropicExponent,
    },
    stepS,
  );
  return { lengthM: fellBack ? 0 : lengthM, speedMPerS: fellBack ? 0 : speedMPerS, gasPressurePa };
}
