import { STANDARD_GRAVITY_M_PER_S2 } from '../../analysis/units.ts';
import { advanceDeliveryPressure, type Feed, slipFlowM3PerS, valveFlowM3PerS } from './deliveryLine.ts';
import { createGearMesh, PRACTICE_GEARS } from './gearMesh.ts';
import { createOil, type OilState } from './oil.ts';
import { derivedCapacityM3PerRev, laminarSlipM3, type PumpTruth } from './pumpTruth.ts';
import type { PracticeSetUp } from './setUp.ts';
import { advanceColumn, type Column, columnAtRest, type SuctionPipe } from './suctionColumn.ts';

/** What really happens on the bench, before any sensor. */
export type TrueState = {
  readonly suctionPressurePa: number;
  readonly deliveryPressurePa: number;
  /** At the meter, behind the delivery line. */
  readonly meterFlowM3PerS: number;
  /** At the pump's outlet port, mean over the tooth ripple. */
  readonly portFlowM3PerS: number;
  readonly speedRevPerS: number;
  readonly oilTemperatureK: number;
  /** Oil in the suction pipe above the oil surface. */
  readonly columnM: number;
  readonly isLineFull: boolean;
};

export type Hydraulics = {
  readonly state: () => TrueState;
  readonly advance: (controls: { readonly speedRevPerS: number; readonly valveOpening: number }, stepS: number) => void;
  /** Pipe, pump and delivery line empty and vented, gaps oiled, motor at rest. */
  readonly dry: () => void;
  /** Pipe and pump full of oil; the delivery line as it is. */
  readonly flood: () => void;
  readonly setOilTemperature: (temperatureK: number) => void;
};

/** Speed follows its command with this time constant, never faster than the limit: invented [s], [rev/s²]. */
const MOTOR_LAG_S = 0.4;
const MOTOR_LIMIT_REV_PER_S2 = 40;
const AT_REST_REV_PER_S = 0.01;
/** Oil that fills the outlet chamber before any leaves the port [m³]. */
const OUTLET_CHAMBER_M3 = 4e-6;
const SUBMERGED_PIPE_M = 0.15;
const POLYTROPIC_EXPONENT = 1.2;
const GAS_ENTRY_SHARE = 0.1;
/** The dry column swings faster than the rest of the bench changes: this many steps in one. */
const COLUMN_STEPS = 4;
/** Tank of some 10 l, kept warm in a workshop at 20 °C; friction torque of pump and seals: invented. */
const TANK_J_PER_K = 18_000;
const TANK_LOSS_W_PER_K = 2;
const WORKSHOP_K = 293.15;
const FRICTION_TORQUE_N_M = 0.3;

/**
 * The pump with its pipes, oil and motor. Holds the state of the bench; every law stands in a pure function elsewhere.
 *
 * @param pump - the pump's true numbers [SI]
 * @param setUp - pipes, oil and barometer [SI]
 * @param oilTemperatureK - of the tank at the start [K]
 * @returns the bench's hydraulics, dry and at rest
 */
export function createHydraulics(pump: PumpTruth, setUp: PracticeSetUp, oilTemperatureK: number): Hydraulics {
  const mesh = createGearMesh(PRACTICE_GEARS);
  const oil = createOil(setUp);
  const atmospherePa = setUp.barometerPa;
  const pipe: SuctionPipe = {
    staticLiftM: setUp.staticLiftM,
    boreM: setUp.suctionPipeBoreM,
    lengthM: setUp.suctionPipeLengthM,
    submergedLengthM: SUBMERGED_PIPE_M,
    deadVolumeM3: setUp.deadVolumeM3,
    polytropicExponent: POLYTROPIC_EXPONENT,
    inertiaShare: 1,
  };
  const gap = { constantM3PerSPerPa: pump.gasGapM3PerSPerPa, entryShare: GAS_ENTRY_SHARE };

  let temperatureK = oilTemperatureK;
  let speedRevPerS = 0;
  let angleTeeth = 0;
  let column: Column = columnAtRest(atmospherePa);
  let isWet = false;
  let residualGasM3 = setUp.deadVolumeM3;
  let outletOilM3 = 0;
  let suctionPressurePa = atmospherePa;
  let deliveryPressurePa = atmospherePa;
  let portFlowM3PerS = 0;
  let meterFlowM3PerS = 0;
  const isLineFull = (): boolean => outletOilM3 >= OUTLET_CHAMBER_M3 + setUp.deliveryLineVolumeM3;

  function advanceMotor(commandRevPerS: number, stepS: number): void {
    const wanted = (commandRevPerS - speedRevPerS) / MOTOR_LAG_S;
    speedRevPerS += stepS * Math.max(-MOTOR_LIMIT_REV_PER_S2, Math.min(MOTOR_LIMIT_REV_PER_S2, wanted));
    if (commandRevPerS === 0 && speedRevPerS < AT_REST_REV_PER_S) speedRevPerS = 0;
  }

  function advanceDry(oilState: OilState, stepS: number): void {
    const draw = {
      atmospherePa,
      intakeM3PerS: derivedCapacityM3PerRev(pump, temperatureK) * speedRevPerS,
      deliveryPressurePa,
      gap,
      carryOverShare: pump.carryOverShare,
    };
    for (let part = 0; part < COLUMN_STEPS; part++) {
      column = advanceColumn(column, pipe, draw, oilState, stepS / COLUMN_STEPS);
    }
    suctionPressurePa = column.gasPressurePa;
    isWet = column.lengthM >= pipe.lengthM;
  }

  /** Inlet pressure behind a full pipe, quasi-steady. */
  function inletPressurePa(inflowM3PerS: number, oilState: OilState): number {
    const speedMPerS = Math.max(0, inflowM3PerS) / ((Math.PI / 4) * pipe.boreM ** 2);
    const wettedM = pipe.submergedLengthM + pipe.lengthM;
    return (
      atmospherePa -
      oilState.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * pipe.staticLiftM -
      (32 * oilState.dynamicViscosityPaS * wettedM * speedMPerS) / pipe.boreM ** 2 -
      (oilState.densityKgPerM3 * speedMPerS ** 2) / 2
    );
  }

  function advanceWet(sweptM3PerS: number, valveOpening: number, oilState: OilState, stepS: number): void {
    const meanSweptM3PerS = derivedCapacityM3PerRev(pump, temperatureK) * speedRevPerS;
    // What is left of the gas in front of the gears mixes with the oil that comes and is swept out with it.
    const gasShare = pipe.deadVolumeM3 === 0 ? 0 : residualGasM3 / pipe.deadVolumeM3;
    residualGasM3 -= Math.min(residualGasM3, gasShare * meanSweptM3PerS * stepS);
    const feed: Feed = {
      sweptM3PerS: (1 - gasShare) * sweptM3PerS,
      suctionPressurePa,
      laminarSlipM3: laminarSlipM3(pump, temperatureK),
      orificeSlipM2: pump.orificeSlipM2,
    };
    if (isLineFull()) {
      deliveryPressurePa = advanceDeliveryPressure(
        deliveryPressurePa,
        feed,
        valveOpening,
        atmospherePa,
        oilState,
        stepS,
      );
    }
    const slipM3PerS = slipFlowM3PerS(feed, deliveryPressurePa, oilState);
    const deliveredM3PerS = (1 - gasShare) * meanSweptM3PerS - slipM3PerS;
    portFlowM3PerS = outletOilM3 < OUTLET_CHAMBER_M3 ? 0 : deliveredM3PerS;
    meterFlowM3PerS = isLineFull()
      ? Math.max(0, valveFlowM3PerS(valveOpening, deliveryPressurePa - atmospherePa, oilState))
      : 0;
    if (!isLineFull()) outletOilM3 += Math.max(0, deliveredM3PerS) * stepS;
    suctionPressurePa = inletPressurePa(meanSweptM3PerS - slipM3PerS, oilState);
    const frictionW = FRICTION_TORQUE_N_M * 2 * Math.PI * speedRevPerS;
    warmTank((deliveryPressurePa - suctionPressurePa) * meanSweptM3PerS + frictionW, stepS);
  }

  /** Everything that turns the shaft of a pump full of oil ends up as heat in the tank. */
  function warmTank(shaftW: number, stepS: number): void {
    temperatureK += (stepS * (shaftW - TANK_LOSS_W_PER_K * (temperatureK - WORKSHOP_K))) / TANK_J_PER_K;
  }

  return {
    state: () => ({
      suctionPressurePa,
      deliveryPressurePa,
      meterFlowM3PerS,
      portFlowM3PerS,
      speedRevPerS,
      oilTemperatureK: temperatureK,
      columnM: isWet ? pipe.lengthM : column.lengthM,
      isLineFull: isLineFull(),
    }),
    advance(controls, stepS) {
      advanceMotor(controls.speedRevPerS, stepS);
      const nextAngleTeeth = angleTeeth + speedRevPerS * PRACTICE_GEARS.toothCount * stepS;
      const geometricM3 = mesh.displacedM3(angleTeeth, nextAngleTeeth);
      angleTeeth = nextAngleTeeth % PRACTICE_GEARS.toothCount;
      const oilState = oil(temperatureK);
      if (isWet) {
        const builtOverNominal = derivedCapacityM3PerRev(pump, temperatureK) / mesh.sweptVolumeM3PerRev;
        advanceWet((builtOverNominal * geometricM3) / stepS, controls.valveOpening, oilState, stepS);
      } else {
        advanceDry(oilState, stepS);
        warmTank(0, stepS);
      }
    },
    dry() {
      speedRevPerS = 0;
      column = columnAtRest(atmospherePa);
      isWet = false;
      residualGasM3 = pipe.deadVolumeM3;
      outletOilM3 = 0;
      suctionPressurePa = atmospherePa;
      deliveryPressurePa = atmospherePa;
      portFlowM3PerS = 0;
      meterFlowM3PerS = 0;
    },
    flood() {
      isWet = true;
      residualGasM3 = 0;
      outletOilM3 = Math.max(outletOilM3, OUTLET_CHAMBER_M3);
    },
    setOilTemperature(next) {
      temperatureK = next;
    },
  };
}
