import { densityRatio, type Oil } from './oil.ts';
import { derivedCapacityM3PerRev, type PumpTruth, trueFlowM3PerS } from './pumpTruth.ts';
import { shaftTorqueNM } from './shaftTorque.ts';
import { warmedBy } from './warmth.ts';

/** What a sound pump really does at a point, noise-free. */
export type TrueDelivery = {
  readonly derivedCapacityM3PerRev: number;
  /** q_1 at the inlet and q_2 at the outlet port. */
  readonly inletFlowM3PerS: number;
  readonly portFlowM3PerS: number;
  /** V_i n − q_1. */
  readonly slipFlowM3PerS: number;
  /** q_2/(V_i n) [1]. */
  readonly volumetricEfficiency: number;
};

/**
 * Noise-free delivery at a point, mean over the ripple: the slip laws, then mass kept from inlet to outlet.
 *
 * @param pump - the pump's true numbers [SI]
 * @param oil - its oil, a function of temperature [-]
 * @param at - speed [rev/s], pressure difference and inlet pressure [Pa], oil temperature at the inlet [K]
 * @returns flows [m³/s] and efficiency [1]
 *
 * Source: as trueFlowM3PerS, densityRatio and warmedBy.
 */
export function trueDelivery(
  pump: PumpTruth,
  oil: Oil,
  at: {
    readonly speedRevPerS: number;
    readonly differentialPressurePa: number;
    readonly inletPressurePa: number;
    readonly oilTemperatureK: number;
  },
): TrueDelivery {
  const { speedRevPerS, differentialPressurePa, oilTemperatureK } = at;
  const { dynamicViscosityPaS, densityKgPerM3 } = oil(oilTemperatureK);
  const capacityM3PerRev = derivedCapacityM3PerRev(pump, oilTemperatureK);
  const inletFlowM3PerS = trueFlowM3PerS(pump, oil, at);
  const torqueNM = shaftTorqueNM({
    displacementM3PerRev: capacityM3PerRev,
    differentialPressurePa,
    dynamicViscosityPaS,
    speedRevPerS,
  });
  const flow = {
    shaftW: 2 * Math.PI * speedRevPerS * torqueNM,
    massFlowKgPerS: inletFlowM3PerS * densityKgPerM3,
    densityKgPerM3,
    differentialPressurePa,
  };
  const inlet = { temperatureK: oilTemperatureK, pressurePa: at.inletPressurePa };
  const outlet = {
    temperatureK: warmedBy(flow, oilTemperatureK).outletK,
    pressurePa: at.inletPressurePa + differentialPressurePa,
  };
  const portFlowM3PerS = inletFlowM3PerS / densityRatio(inlet, outlet);
  const theoreticalM3PerS = capacityM3PerRev * speedRevPerS;
  return {
    derivedCapacityM3PerRev: capacityM3PerRev,
    inletFlowM3PerS,
    portFlowM3PerS,
    slipFlowM3PerS: theoreticalM3PerS - inletFlowM3PerS,
    volumetricEfficiency: portFlowM3PerS / theoreticalM3PerS,
  };
}
