import { BAROMETER_SOURCE_ID } from '../calibration/channelSources.ts';
import { correctedByKFactor } from '../calibration/kFactor.ts';
import { oilDensity } from '../oil/density.ts';
import { oilState } from '../oil/oilState.ts';
import type { BenchChannel } from '../records/benchRecord.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { combine, type Source, type Uncertain } from '../uncertainty/source.ts';
import { type OilPlace, referredFlow } from './referredFlow.ts';

/** Bulk modulus of mineral oil with little air, and how far it may be off [Pa, 1]: common practice, no source. */
const BULK_MODULUS_PA = 1.5e9;
const BULK_MODULUS_HALF_WIDTH = 0.2;

/** The oil at the meter may be so much warmer or colder than at the inlet where nobody measures it [K]. */
const METER_TEMPERATURE_HALF_WIDTH_K = 1;

/** Heat capacity of mineral oil by mass, 1.8 to 2.1 kJ/(kg K): common practice, no source. Only reaches rest on it. */
const HEAT_CAPACITY_J_PER_KG_K = 1900;

/** Step over which density and viscosity are differentiated by temperature [K]. */
const STEP_K = 0.1;

const BULK_MODULUS_ID = 'oil.bulkModulus';
const METER_TEMPERATURE_ID = 'flow.meterTemperature';
const OUTLET_TEMPERATURE_ID = 'delivery.outletTemperature';

/** Bulk modulus of the oil, the same wherever flows are referred to another pressure [Pa]. */
export const ASSUMED_BULK_MODULUS: Uncertain = {
  value: BULK_MODULUS_PA,
  sensitivities: { [BULK_MODULUS_ID]: BULK_MODULUS_PA },
};

function assumption(id: string, label: string, halfWidth: number): Source {
  return {
    id,
    label,
    kind: 'calibration',
    // JCGM 100:2008, 4.3.7: a rectangular distribution of half width a has the standard uncertainty a/√3.
    standardUncertainty: halfWidth / Math.sqrt(3),
    degreesOfFreedom: null,
    shape: 'rectangular',
    pooledAs: null,
  };
}

/**
 * What the mass balance assumes, as sources common to all holds. A hold is sensitive to those that it needs: a bench with a
 * thermometer at the meter does not see the second.
 *
 * @returns bulk modulus, relative [1]; oil at the meter [K]; warming on the way to the outlet, as a share of Δp/(ρ c) [1]
 */
export function holdSources(): readonly Source[] {
  return [
    assumption(BULK_MODULUS_ID, 'bulk modulus of the oil, assumed', BULK_MODULUS_HALF_WIDTH),
    assumption(
      METER_TEMPERATURE_ID,
      "oil temperature at the flow meter, taken as the inlet's",
      METER_TEMPERATURE_HALF_WIDTH_K,
    ),
    assumption(OUTLET_TEMPERATURE_ID, "oil temperature at the outlet, taken as the inlet's", 1),
  ];
}

export type MeteredFlow = {
  /** As the meter said, before any correction. */
  readonly flowM3PerS: Uncertain;
  readonly channel: BenchChannel;
  /** Null: no thermometer at the meter; likewise the pressure. */
  readonly meterTemperatureK: Uncertain | null;
  readonly meterPressurePa: Uncertain | null;
  readonly externalDrainM3PerS: Uncertain | null;
};

/** Pump flows by mass balance. */
export type BalancedFlows = { readonly outletM3PerS: Uncertain; readonly inletM3PerS: Uncertain };

function assumedShift(value: Uncertain, id: string, derivative: number): Uncertain {
  return combine(value.value, [
    { input: value, derivative: 1 },
    { input: { value: 0, sensitivities: { [id]: 1 } }, derivative },
  ]);
}

function kinematicViscosityAt(oil: OilRecord, temperatureK: Uncertain): Uncertain {
  const at = (kelvin: number): number => oilState(oil, kelvin).kinematicViscosityM2PerS;
  const value = at(temperatureK.value);
  const perK = (at(temperatureK.value + STEP_K) - at(temperatureK.value - STEP_K)) / (2 * STEP_K);
  return combine(value, [
    { input: temperatureK, derivative: perK },
    { input: { value: 0, sensitivities: { 'oil.viscosity': 1 } }, derivative: value },
  ]);
}

/**
 * Flow at the outlet port q_2 and flow drawn in q_1 from what the meter saw, by conservation of mass:
 * q_2 = q_m ρ_m/ρ_2, q_1 = q_m ρ_m/ρ_1 + drain = q_2 ρ_2/ρ_1 + drain.
 *
 * What is assumed where nobody measures it, each a named source (holdSources): the oil at the meter is as warm as at the inlet,
 * ± 1 K and ± Δp/(ρ c), which a throttle between pump and meter adds; the meter stands at the barometer's pressure; the oil at
 * the outlet is as warm as at the inlet, ± Δp/(ρ c), which counts for q_2 alone; its bulk modulus is 1.5 GPa ± 20 %, expansion
 * that of the density law. The drain is taken by volume as its meter says, without a correction of its own: it is small. Density
 * at atmospheric pressure cancels in the ratios, so its error takes no part.
 *
 * @param metered - meter, drain, and the oil's state at the meter as far as known [m³/s, K, Pa]
 * @param inlet - absolute pressure and temperature at the inlet [Pa, K]
 * @param deliveryPressurePa - absolute, at the outlet [Pa]
 * @param oil - oil of the run [-]
 * @param barometerPa - of the run [Pa]
 * @returns q_2 and q_1 with their sensitivities [m³/s]
 *
 * Source: conservation of mass; density ratio in the manner of ISO 4409 (referredFlow).
 */
export function balancedFlows(
  metered: MeteredFlow,
  inlet: OilPlace,
  deliveryPressurePa: Uncertain,
  oil: OilRecord,
  barometerPa: number,
): BalancedFlows {
  const densityAt = (kelvin: number): number => oilDensity(oil.densityAt15CKgPerM3, kelvin);
  const inletK = inlet.temperatureK.value;
  const density = densityAt(inletK);
  const elasticity = {
    bulkModulusPa: ASSUMED_BULK_MODULUS,
    expansionPerK: (densityAt(inletK - STEP_K) - densityAt(inletK + STEP_K)) / (2 * STEP_K * density),
  };
  const warmingK =
    Math.max(0, deliveryPressurePa.value - inlet.pressurePa.value) / (density * HEAT_CAPACITY_J_PER_KG_K);
  const meter: OilPlace = {
    // The source is ± 1 K; Δp/(ρ c) widens it by as many times a kelvin.
    temperatureK:
      metered.meterTemperatureK ??
      assumedShift(inlet.temperatureK, METER_TEMPERATURE_ID, 1 + warmingK / METER_TEMPERATURE_HALF_WIDTH_K),
    pressurePa: metered.meterPressurePa ?? { value: barometerPa, sensitivities: { [BAROMETER_SOURCE_ID]: 1 } },
  };
  const outlet: OilPlace = {
    pressurePa: deliveryPressurePa,
    temperatureK: assumedShift(inlet.temperatureK, OUTLET_TEMPERATURE_ID, warmingK),
  };
  const viscosity = kinematicViscosityAt(oil, meter.temperatureK);
  const meterFlow = correctedByKFactor(metered.flowM3PerS, metered.channel, viscosity);
  const drawnIn = referredFlow(meterFlow, meter, inlet, elasticity);
  const drain = metered.externalDrainM3PerS;
  return {
    outletM3PerS: referredFlow(meterFlow, meter, outlet, elasticity),
    inletM3PerS:
      drain === null
        ? drawnIn
        : combine(drawnIn.value + drain.value, [
            { input: drawnIn, derivative: 1 },
            { input: drain, derivative: 1 },
          ]),
  };
}
