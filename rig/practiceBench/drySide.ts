import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { type GasGap, gasLeakPaM3PerS, holeLeakPaM3PerS } from './gasLeak.ts';
import type { OilState } from './oil.ts';
import type { PracticePlant } from './plant.ts';
import type { PumpTruth } from './pumpTruth.ts';
import {
  advanceColumn,
  advanceGasPressure,
  type Column,
  columnAtRest,
  type Draw,
  gasBackPaM3PerS,
  type SuctionPipe,
} from './suctionColumn.ts';

/** Valves of the suction side that stand between pipe and pump; the pressure tapping lies between the two. */
export type SuctionValves = {
  /** Shut: the pump draws on its own dead volume, which the tapping sees. */
  readonly isBlanked: boolean;
  /** Shut: the pipe stands by itself, and the tapping sees the pipe. */
  readonly isPipeHeld: boolean;
};

export type DrySide = {
  readonly suctionPressurePa: () => number;
  readonly deliveryPressurePa: () => number;
  readonly columnM: () => number;
  readonly hasArrived: () => boolean;
  readonly dry: () => void;
  readonly advance: (
    at: { readonly displacementM3PerS: number; readonly oil: OilState; readonly valves: SuctionValves },
    stepS: number,
  ) => void;
};

export const GAS_ENTRY_SHARE = 0.1;
/** The dry column swings faster than the rest of the bench changes: this many steps in one. */
const COLUMN_STEPS = 4;
/** Gas that stays in a pipe that is held, whatever stands in it [m³]. */
const LEAST_GAS_M3 = 2e-6;

/** Gap constant of the pump while its films form or fail, by the time that it has turned dry [m³/(s Pa)]. */
function filmGap(pump: PumpTruth, plant: PracticePlant, turnedS: number): GasGap {
  const { films } = plant;
  const factor = films === undefined ? 1 : 1 + (films.startFactor - 1) * Math.exp(-turnedS / films.timeConstantS);
  return { constantM3PerSPerPa: factor * pump.gasGapM3PerSPerPa, entryShare: GAS_ENTRY_SHARE };
}

/** What comes into the suction side besides the leak through the gaps: shaft, holes, relief valve [Pa m³/s]. */
export function strayGasPaM3PerS(
  plant: PracticePlant,
  at: { readonly atmospherePa: number; readonly deliveryPressurePa: number; readonly suctionPressurePa: number },
  isPipeOpen: boolean,
): number {
  const { atmospherePa, deliveryPressurePa, suctionPressurePa } = at;
  const shaft = { constantM3PerSPerPa: plant.shaftLeakM3PerSPerPa ?? 0, entryShare: 0 };
  return (
    gasLeakPaM3PerS(shaft, atmospherePa, suctionPressurePa) +
    holeLeakPaM3PerS(plant.reliefNotSeatingM2 ?? 0, deliveryPressurePa, suctionPressurePa) +
    (isPipeOpen ? holeLeakPaM3PerS(plant.pipeLeakM2 ?? 0, atmospherePa, suctionPressurePa) : 0)
  );
}

/**
 * The suction side of a pump without oil, and the air on its delivery side where that is shut in.
 *
 * @param pump - the pump's true numbers [SI]
 * @param plant - what is planted [-]
 * @param pipe - suction pipe [m, m³]
 * @param atmospherePa - barometer [Pa]
 * @returns the dry side, at rest
 */
export function createDrySide(pump: PumpTruth, plant: PracticePlant, pipe: SuctionPipe, atmospherePa: number): DrySide {
  const areaM2 = (Math.PI / 4) * pipe.boreM ** 2;
  const carryOverShare = plant.carryOverShare ?? pump.carryOverShare;
  let column: Column = columnAtRest(atmospherePa);
  /** Pressure in front of the pump where it is cut off from the pipe. */
  let flangePa = atmospherePa;
  let deliveryPa = atmospherePa;
  let turnedS = 0;
  let isCutOff = false;
  let tappingPa = atmospherePa;

  /** Closing the valve parts one gas space in two; opening it lets them mix. */
  function setCutOff(next: boolean): void {
    if (next === isCutOff) return;
    isCutOff = next;
    if (next) {
      flangePa = column.gasPressurePa;
      return;
    }
    const pipeM3 = Math.max(LEAST_GAS_M3, areaM2 * (pipe.lengthM - column.lengthM));
    const mixedPa = (column.gasPressurePa * pipeM3 + flangePa * pipe.deadVolumeM3) / (pipeM3 + pipe.deadVolumeM3);
    column = { ...column, gasPressurePa: mixedPa };
  }

  /** A pump that turns backwards brings gas at delivery pressure and takes none [m³/s, Pa m³/s]. */
  function drawAt(displacementM3PerS: number, suctionPa: number, isPipeOpen: boolean): Draw {
    const backwardsM3PerS = Math.max(0, -displacementM3PerS);
    return {
      atmospherePa,
      intakeM3PerS: Math.max(0, displacementM3PerS),
      deliveryPressurePa: deliveryPa,
      gap: filmGap(pump, plant, turnedS),
      carryOverShare,
      otherGasPaM3PerS:
        strayGasPaM3PerS(
          plant,
          { atmospherePa, deliveryPressurePa: deliveryPa, suctionPressurePa: suctionPa },
          isPipeOpen,
        ) +
        backwardsM3PerS * deliveryPa,
    };
  }

  /** The pipe's own side: everything that is not the pump. */
  function pipeAlone(oil: OilState, stepS: number): void {
    const still = { constantM3PerSPerPa: 0, entryShare: 0 };
    const draw: Draw = {
      atmospherePa,
      intakeM3PerS: 0,
      deliveryPressurePa: deliveryPa,
      gap: still,
      carryOverShare: 0,
      otherGasPaM3PerS: holeLeakPaM3PerS(plant.pipeLeakM2 ?? 0, atmospherePa, column.gasPressurePa),
    };
    climb({ ...pipe, deadVolumeM3: LEAST_GAS_M3 }, draw, oil, stepS);
  }

  function climb(along: SuctionPipe, draw: Draw, oil: OilState, stepS: number): void {
    if (plant.isPipeBlocked === true) {
      const gas = {
        volumeM3: areaM2 * (along.lengthM - column.lengthM) + along.deadVolumeM3,
        takenM3PerS: draw.intakeM3PerS,
        inPaM3PerS: gasBackPaM3PerS(draw, column.gasPressurePa),
        exponent: along.polytropicExponent,
      };
      column = { ...column, speedMPerS: 0, gasPressurePa: advanceGasPressure(column.gasPressurePa, gas, stepS) };
      return;
    }
    // Bubbles that the foot draws leave the column at its top.
    const airShare = plant.strainerAirShare ?? 0;
    const bubblesPaM3PerS = (airShare / (1 - airShare)) * atmospherePa * areaM2 * Math.max(0, column.speedMPerS);
    const thinned = { ...oil, densityKgPerM3: (1 - airShare) * oil.densityKgPerM3 };
    const next = advanceColumn(
      column,
      along,
      { ...draw, otherGasPaM3PerS: (draw.otherGasPaM3PerS ?? 0) + bubblesPaM3PerS },
      thinned,
      stepS,
    );
    const isHeld = plant.hasFootValve === true && next.lengthM < column.lengthM;
    // Gas that is pushed down the pipe leaves it at the foot.
    const footPa = atmospherePa + oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * pipe.submergedLengthM;
    column = {
      lengthM: isHeld ? column.lengthM : Math.min(next.lengthM, pipe.lengthM),
      speedMPerS: isHeld ? 0 : next.speedMPerS,
      gasPressurePa: Math.min(next.gasPressurePa, footPa),
    };
  }

  function pumpAlone(displacementM3PerS: number, stepS: number): void {
    const draw = drawAt(displacementM3PerS, flangePa, false);
    flangePa = advanceGasPressure(
      flangePa,
      {
        volumeM3: pipe.deadVolumeM3,
        takenM3PerS: draw.intakeM3PerS,
        inPaM3PerS: gasBackPaM3PerS(draw, flangePa),
        exponent: pipe.polytropicExponent,
      },
      stepS,
    );
  }

  /** Air shut in behind the pump takes what comes through and gives what leaks back. */
  function advanceDelivery(displacementM3PerS: number, suctionPa: number, stepS: number): void {
    if (plant.unventedDeliveryM3 === undefined) return;
    const inPaM3PerS = suctionPa * Math.max(0, displacementM3PerS);
    const leakPaM3PerS =
      gasBackPaM3PerS({ ...drawAt(displacementM3PerS, suctionPa, false), otherGasPaM3PerS: 0 }, suctionPa) +
      holeLeakPaM3PerS(plant.reliefNotSeatingM2 ?? 0, deliveryPa, suctionPa);
    deliveryPa += (stepS / plant.unventedDeliveryM3) * (inPaM3PerS - leakPaM3PerS);
  }

  return {
    suctionPressurePa: () => tappingPa,
    deliveryPressurePa: () => deliveryPa,
    columnM: () => column.lengthM,
    hasArrived: () => !isCutOff && column.lengthM >= pipe.lengthM,
    dry() {
      column = columnAtRest(atmospherePa);
      flangePa = atmospherePa;
      tappingPa = atmospherePa;
      deliveryPa = atmospherePa;
      turnedS = 0;
      isCutOff = false;
    },
    advance({ displacementM3PerS, oil, valves }, stepS) {
      setCutOff(valves.isBlanked || valves.isPipeHeld);
      if (displacementM3PerS !== 0) turnedS += stepS;
      const partS = stepS / COLUMN_STEPS;
      for (let part = 0; part < COLUMN_STEPS && column.lengthM < pipe.lengthM; part++) {
        if (isCutOff) {
          pumpAlone(displacementM3PerS, partS);
          pipeAlone(oil, partS);
        } else {
          climb(pipe, drawAt(displacementM3PerS, column.gasPressurePa, true), oil, partS);
        }
        advanceDelivery(displacementM3PerS, isCutOff ? flangePa : column.gasPressurePa, partS);
      }
      tappingPa = isCutOff && !valves.isPipeHeld ? flangePa : column.gasPressurePa;
    },
  };
}
