import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { createDisplacer } from './displacer.ts';
import { createDrySide, type SuctionValves } from './drySide.ts';
import { advanceMotor } from './motor.ts';
import { createOil, type OilState } from './oil.ts';
import type { PracticePlant } from './plant.ts';
import { derivedCapacityM3PerRev, type PumpTruth } from './pumpTruth.ts';
import type { PracticeSetUp } from './setUp.ts';
import { shaftTorqueNM } from './shaftTorque.ts';
import { pipeHeightM, type SuctionPipe } from './suctionColumn.ts';
import { createWarmth } from './warmth.ts';
import { createWetSide } from './wetSide.ts';

/** What really happens on the bench, before any sensor. */
export type TrueState = {
  readonly suctionPressurePa: number;
  readonly deliveryPressurePa: number;
  /** At the meter, behind the delivery line and at its temperature. */
  readonly meterFlowM3PerS: number;
  /** q_2 at the pump's outlet port, mean over the tooth ripple. */
  readonly portFlowM3PerS: number;
  /** q_1 at the inlet: the same oil at the density that it has there. */
  readonly inletFlowM3PerS: number;
  readonly speedRevPerS: number;
  readonly oilTemperatureK: number;
  readonly meterTemperatureK: number;
  readonly caseTemperatureK: number;
  readonly torqueNM: number;
  /** Oil in the suction pipe above the oil surface. */
  readonly columnM: number;
  readonly isLineFull: boolean;
};

type Controls = SuctionValves & {
  readonly speedRevPerS: number;
  /** Of the delivery valve, and of the throttle in the suction pipe [1]. */
  readonly valveOpening: number;
  readonly suctionOpening: number;
};

export type Hydraulics = {
  readonly state: () => TrueState;
  readonly advance: (controls: Controls, stepS: number) => void;
  /** Pipe, pump and delivery line empty and vented, gaps oiled, motor at rest. */
  readonly dry: () => void;
  /** Pipe and pump full of oil; the delivery line as it is. */
  readonly flood: () => void;
  readonly setOilTemperature: (temperatureK: number) => void;
};

const SUBMERGED_PIPE_M = 0.15;
const POLYTROPIC_EXPONENT = 1.2;
/** Cd A of the suction throttle as it stands in the open pipe: invented [m²]. */
const THROTTLE_M2 = 3e-4;
/** The suction line gives way a little: its pressure follows what the flow asks for with this lag [s]. */
const SUCTION_LAG_S = 0.02;
/** A pump that draws on a shut suction cannot go below this [Pa]. */
const LEAST_SUCTION_PA = 500;

/** The suction pipe of a set-up, with what is planted in it. */
function suctionPipeOf(setUp: PracticeSetUp, plant: PracticePlant): SuctionPipe {
  const lengthM = plant.pipeLegs?.reduce((sum, leg) => sum + leg.lengthM, 0) ?? setUp.suctionPipeLengthM;
  return {
    staticLiftM: setUp.staticLiftM,
    boreM: setUp.suctionPipeBoreM,
    lengthM,
    legs: plant.pipeLegs,
    submergedLengthM: SUBMERGED_PIPE_M,
    deadVolumeM3: setUp.deadVolumeM3,
    polytropicExponent: POLYTROPIC_EXPONENT,
    inertiaShare: 1,
  };
}

/**
 * The pump with its pipes, oil and motor. Holds the state of the bench; every law stands in a pure function elsewhere.
 *
 * @param pump - the pump's true numbers [SI]
 * @param setUp - pipes, oil and barometer [SI]
 * @param oilTemperatureK - of the tank at the start [K]
 * @param plant - what is planted [-]
 * @returns the bench's hydraulics, dry and at rest
 */
export function createHydraulics(
  pump: PumpTruth,
  setUp: PracticeSetUp,
  oilTemperatureK: number,
  plant: PracticePlant = {},
): Hydraulics {
  const displacer = createDisplacer(pump.kind);
  const oil = createOil(setUp);
  const atmospherePa = setUp.barometerPa;
  const pipe = suctionPipeOf(setUp, plant);
  const inletHeightM = pipeHeightM(pipe, pipe.lengthM);
  const warmth = createWarmth(oilTemperatureK);
  const drySide = createDrySide(pump, plant, pipe, atmospherePa);
  const wetSide = createWetSide(pump, plant, setUp);

  let speedRevPerS = 0;
  let anglePulses = 0;
  let isWet = false;
  let suctionPressurePa = atmospherePa;
  let torqueNM = 0;

  /** Inlet pressure that a full pipe asks for, quasi-steady. */
  function inletPressurePa(inflowM3PerS: number, suctionOpening: number, oilState: OilState): number {
    const speedMPerS = Math.max(0, inflowM3PerS) / ((Math.PI / 4) * pipe.boreM ** 2);
    const throttledMPerS = Math.max(0, inflowM3PerS) / THROTTLE_M2;
    const wettedM = pipe.submergedLengthM + pipe.lengthM;
    return (
      atmospherePa -
      oilState.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * inletHeightM -
      (32 * oilState.dynamicViscosityPaS * wettedM * speedMPerS) / pipe.boreM ** 2 -
      (oilState.densityKgPerM3 * (speedMPerS ** 2 + throttledMPerS ** 2 * (suctionOpening ** -2 - 1))) / 2
    );
  }

  function advanceWet(controls: Controls, displacedM3PerS: number, oilState: OilState, stepS: number): void {
    const meanM3PerS = derivedCapacityM3PerRev(pump, warmth.tankK()) * pumpSpeedRevPerS();
    const isSuctionShut = controls.isBlanked || controls.isPipeHeld || plant.isPipeBlocked === true;
    const { inflowM3PerS } = wetSide.advance(
      {
        displacedM3PerS,
        meanM3PerS,
        suctionPressurePa,
        valveOpening: controls.valveOpening,
        isSuctionShut,
        oil: oilState,
        inletK: warmth.tankK(),
        outletK: warmth.outletK(),
        meterK: warmth.meterK(),
      },
      stepS,
    );
    const goalPa =
      isSuctionShut && !controls.isPipeHeld && meanM3PerS > 0
        ? LEAST_SUCTION_PA
        : inletPressurePa(isSuctionShut ? 0 : inflowM3PerS, controls.suctionOpening, oilState);
    suctionPressurePa += (Math.max(LEAST_SUCTION_PA, goalPa) - suctionPressurePa) * (stepS / SUCTION_LAG_S);
  }

  const pumpSpeedRevPerS = (): number => {
    if (plant.isShaftNotDriven === true) return 0;
    return plant.isReversed === true ? -speedRevPerS : speedRevPerS;
  };

  const deliveryPressurePa = (): number => (isWet ? wetSide.deliveryPressurePa() : drySide.deliveryPressurePa());

  function advanceTorque(displacementM3PerRev: number, dynamicViscosityPaS: number): void {
    const differentialPressurePa = deliveryPressurePa() - suctionPressurePa;
    const isLoaded = plant.isShaftNotDriven !== true;
    torqueNM = shaftTorqueNM({
      displacementM3PerRev: isLoaded ? displacementM3PerRev : 0,
      differentialPressurePa,
      dynamicViscosityPaS: isLoaded ? dynamicViscosityPaS : 0,
      speedRevPerS,
    });
  }

  return {
    state: () => ({
      suctionPressurePa,
      deliveryPressurePa: deliveryPressurePa(),
      meterFlowM3PerS: isWet ? wetSide.meterFlowM3PerS() : 0,
      portFlowM3PerS: isWet ? wetSide.portFlowM3PerS() : 0,
      inletFlowM3PerS: isWet ? wetSide.inletFlowM3PerS() : 0,
      speedRevPerS,
      oilTemperatureK: warmth.tankK(),
      meterTemperatureK: warmth.meterK(),
      caseTemperatureK: warmth.caseK(),
      torqueNM,
      columnM: isWet ? pipe.lengthM : drySide.columnM(),
      isLineFull: wetSide.isLineFull(),
    }),
    advance(controls, stepS) {
      speedRevPerS = advanceMotor(speedRevPerS, controls.speedRevPerS, stepS);
      const oilState = oil(warmth.tankK());
      const capacityM3PerRev = derivedCapacityM3PerRev(pump, warmth.tankK());
      const turnedPulses = pumpSpeedRevPerS() * displacer.pulsesPerRev * stepS;
      const geometricM3 = displacer.displacedM3(anglePulses, anglePulses + turnedPulses);
      anglePulses = (anglePulses + turnedPulses) % displacer.pulsesPerRev;
      const displacedM3PerS = ((capacityM3PerRev / displacer.sweptVolumeM3PerRev) * geometricM3) / stepS;
      if (isWet) {
        advanceWet(controls, displacedM3PerS, oilState, stepS);
        advanceTorque(speedRevPerS === 0 ? 0 : displacedM3PerS / speedRevPerS, oilState.dynamicViscosityPaS);
        const flow = {
          shaftW: 2 * Math.PI * speedRevPerS * torqueNM,
          massFlowKgPerS: wetSide.inletFlowM3PerS() * oilState.densityKgPerM3,
          densityKgPerM3: oilState.densityKgPerM3,
          differentialPressurePa: deliveryPressurePa() - suctionPressurePa,
        };
        warmth.advance(flow, stepS);
        return;
      }
      drySide.advance(
        { displacementM3PerS: capacityM3PerRev * pumpSpeedRevPerS(), oil: oilState, valves: controls },
        stepS,
      );
      suctionPressurePa = drySide.suctionPressurePa();
      advanceTorque(capacityM3PerRev, 0);
      warmth.advance(null, stepS);
      if (drySide.hasArrived()) {
        isWet = true;
        wetSide.arrive(drySide.deliveryPressurePa());
      }
    },
    dry() {
      speedRevPerS = 0;
      isWet = false;
      suctionPressurePa = atmospherePa;
      drySide.dry();
      wetSide.empty();
    },
    flood() {
      isWet = true;
      wetSide.flood();
    },
    setOilTemperature: warmth.setTank,
  };
}
