import { advanceDeliveryPressure, type Feed, slipFlowM3PerS, valveFlowM3PerS } from './deliveryLine.ts';
import { createInletGas } from './inletGas.ts';
import { densityRatio, type OilState } from './oil.ts';
import type { PracticePlant } from './plant.ts';
import { createPumpRelief } from './pumpRelief.ts';
import { laminarSlipM3, type PumpTruth } from './pumpTruth.ts';
import type { PracticeSetUp } from './setUp.ts';

/** What acts on a pump full of oil. */
type WetDraw = {
  /** Displacement with its ripple, and its mean. */
  readonly displacedM3PerS: number;
  readonly meanM3PerS: number;
  readonly suctionPressurePa: number;
  readonly valveOpening: number;
  readonly isSuctionShut: boolean;
  readonly oil: OilState;
  readonly inletK: number;
  readonly outletK: number;
  readonly meterK: number;
};

export type WetSide = {
  readonly deliveryPressurePa: () => number;
  readonly inletFlowM3PerS: () => number;
  readonly portFlowM3PerS: () => number;
  readonly meterFlowM3PerS: () => number;
  readonly isLineFull: () => boolean;
  /** Oil has come up the pipe; air is left in the pump. */
  readonly arrive: (deliveryPressurePa: number) => void;
  readonly flood: () => void;
  readonly empty: () => void;
  /** @returns what flows through the suction pipe, gas included [m³/s] */
  readonly advance: (draw: WetDraw, stepS: number) => { readonly inflowM3PerS: number };
};

/** Oil that fills the outlet chamber before any leaves the port, in the external gear pump [m³]. */
const OUTLET_CHAMBER_M3 = 4e-6;
const EXTERNAL_GEAR_M3_PER_REV = 13.881e-6;
/** Beyond the knee a chamber fills by this much less: invented [1]. */
const UNFILLED_SHARE = 0.6;
/** The planted relief valve passes the whole flow of this speed at its overshoot [rev/s]. */
const RELIEF_FULL_FLOW_REV_PER_S = 15;
const LEAST_DELIVERY_PA = 2e4;

/**
 * A pump full of oil with its delivery line. Mass is kept: inlet, port and meter carry the same oil, each at its own
 * density.
 *
 * @param pump - the pump's true numbers [SI]
 * @param plant - what is planted [-]
 * @param setUp - pipes and barometer [SI]
 * @returns the wet side, empty
 */
export function createWetSide(pump: PumpTruth, plant: PracticePlant, setUp: PracticeSetUp): WetSide {
  const atmospherePa = setUp.barometerPa;
  const size = pump.sweptVolumeM3PerRev / EXTERNAL_GEAR_M3_PER_REV;
  const outletChamberM3 = size * OUTLET_CHAMBER_M3;
  const orificeSlipM2 = pump.orificeSlipM2 + (plant.reliefNotSeatingM2 ?? 0);
  const kneeRevPerS = plant.fillingKneeRevPerS ?? Number.POSITIVE_INFINITY;
  const relief = createPumpRelief(plant.relief, RELIEF_FULL_FLOW_REV_PER_S * pump.sweptVolumeM3PerRev);
  const gas = createInletGas(plant, atmospherePa);

  let residualGasM3 = setUp.deadVolumeM3;
  let wetForS = 0;
  let outletOilM3 = 0;
  let deliveryPressurePa = atmospherePa;
  let inletFlowM3PerS = 0;
  let portFlowM3PerS = 0;
  let meterFlowM3PerS = 0;
  const isLineFull = (): boolean => outletOilM3 >= outletChamberM3 + setUp.deliveryLineVolumeM3;

  function filledShare(meanM3PerS: number): number {
    const speedRevPerS = Math.abs(meanM3PerS) / pump.derivedCapacityAtReferenceM3PerRev;
    return speedRevPerS <= kneeRevPerS ? 1 : 1 - UNFILLED_SHARE * (1 - kneeRevPerS / speedRevPerS);
  }

  /** What is left of the gas in front of the gears mixes with the oil that comes and is swept out with it. */
  function residualShare(meanM3PerS: number, stepS: number): number {
    const share = setUp.deadVolumeM3 === 0 ? 0 : residualGasM3 / setUp.deadVolumeM3;
    residualGasM3 -= Math.min(residualGasM3, share * Math.max(0, meanM3PerS) * stepS);
    return share;
  }

  /** Air shut in behind the pump is squeezed by the oil that comes [Pa]. */
  function squeezedPa(shutInM3: number, deliveredM3PerS: number, stepS: number): number {
    const gasM3 = Math.max(1e-7, shutInM3 - outletOilM3);
    return deliveryPressurePa * (1 + (deliveredM3PerS * stepS) / gasM3);
  }

  function empty(): void {
    residualGasM3 = setUp.deadVolumeM3;
    wetForS = 0;
    outletOilM3 = 0;
    deliveryPressurePa = atmospherePa;
    inletFlowM3PerS = 0;
    portFlowM3PerS = 0;
    meterFlowM3PerS = 0;
  }

  return {
    deliveryPressurePa: () => deliveryPressurePa,
    inletFlowM3PerS: () => inletFlowM3PerS,
    portFlowM3PerS: () => portFlowM3PerS,
    meterFlowM3PerS: () => meterFlowM3PerS,
    isLineFull,
    empty,
    arrive(fromPa) {
      deliveryPressurePa = fromPa;
      wetForS = 0;
    },
    flood() {
      residualGasM3 = 0;
      wetForS = Number.POSITIVE_INFINITY;
      outletOilM3 = Math.max(outletOilM3, outletChamberM3);
    },
    advance(draw, stepS) {
      const { oil, meanM3PerS, suctionPressurePa } = draw;
      wetForS += stepS;
      gas.advance(meanM3PerS !== 0, stepS);
      const gasShare = gas.share({ suctionPressurePa, sweptM3PerS: meanM3PerS, wetForS });
      const oilShare = draw.isSuctionShut
        ? 0
        : (1 - residualShare(meanM3PerS, stepS)) * (1 - gasShare) * filledShare(meanM3PerS);
      const reliefM3PerS = relief.advance(deliveryPressurePa - atmospherePa, stepS);
      const outlet = { temperatureK: draw.outletK, pressurePa: deliveryPressurePa };
      // A volume that leaves the inlet arrives at the port denser, or thinner, by this.
      const toPort = 1 / densityRatio({ temperatureK: draw.inletK, pressurePa: suctionPressurePa }, outlet);
      const feed: Feed = {
        sweptM3PerS: toPort * (oilShare * draw.displacedM3PerS - reliefM3PerS),
        suctionPressurePa,
        laminarSlipM3: toPort * laminarSlipM3(pump, draw.inletK),
        orificeSlipM2: toPort * orificeSlipM2,
      };
      const opening = size * draw.valveOpening;
      const isShutIn = plant.unventedDeliveryM3 !== undefined;
      if (isLineFull() && !isShutIn) {
        const nextPa = advanceDeliveryPressure(deliveryPressurePa, feed, opening, atmospherePa, oil, stepS);
        deliveryPressurePa = Math.max(LEAST_DELIVERY_PA, nextPa);
      }
      const slipM3PerS = slipFlowM3PerS(feed, deliveryPressurePa, oil);
      const deliveredM3PerS = toPort * (oilShare * meanM3PerS - reliefM3PerS) - slipM3PerS;
      if (isShutIn) deliveryPressurePa = squeezedPa(plant.unventedDeliveryM3 ?? 0, deliveredM3PerS, stepS);
      const isPortWet = outletOilM3 >= outletChamberM3;
      portFlowM3PerS = isPortWet ? deliveredM3PerS : 0;
      inletFlowM3PerS = isPortWet ? deliveredM3PerS / toPort : 0;
      const valveM3PerS =
        isLineFull() && !isShutIn ? valveFlowM3PerS(opening, deliveryPressurePa - atmospherePa, oil) : 0;
      const toMeter = 1 / densityRatio(outlet, { temperatureK: draw.meterK, pressurePa: atmospherePa });
      meterFlowM3PerS = Math.max(0, toMeter * valveM3PerS);
      if (!isLineFull()) outletOilM3 += Math.max(0, deliveredM3PerS) * stepS;
      return { inflowM3PerS: meanM3PerS * filledShare(meanM3PerS) - slipM3PerS };
    },
  };
}
