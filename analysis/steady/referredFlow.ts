import { combine, type Uncertain } from '../uncertainty/source.ts';

/** State of the oil where a flow is spoken of. */
export type OilPlace = { readonly pressurePa: Uncertain; readonly temperatureK: Uncertain };

export type OilElasticity = {
  readonly bulkModulusPa: Uncertain;
  /** Thermal expansion at constant pressure, −(1/ρ) dρ/dT [1/K]. */
  readonly expansionPerK: number;
};

/**
 * A volume flow referred from one place to another through which the same mass passes:
 * q_to = q_from [1 − (p_to − p_from)/K + α (T_to − T_from)], the density ratio ρ_from/ρ_to to first order in both.
 *
 * @param flow - where it was measured [m³/s]
 * @param from - absolute pressure and temperature there [Pa, K]
 * @param to - absolute pressure and temperature where it is asked for [Pa, K]
 * @param oil - bulk modulus K [Pa] and expansion α [1/K]; α is taken as known: 5 % of it are 1/30 000 of a flow in a kelvin
 * @returns flow with its sensitivities to all of these [m³/s]
 *
 * Source: ISO 4409, flow correction to the pressure and temperature of a port. What first order leaves out is (Δp/K)², 1/10 000
 * at 150 bar.
 */
export function referredFlow(flow: Uncertain, from: OilPlace, to: OilPlace, oil: OilElasticity): Uncertain {
  const { bulkModulusPa, expansionPerK } = oil;
  const risePa = to.pressurePa.value - from.pressurePa.value;
  const warmingK = to.temperatureK.value - from.temperatureK.value;
  const factor = 1 - risePa / bulkModulusPa.value + expansionPerK * warmingK;
  const perPa = flow.value / bulkModulusPa.value;
  const perK = flow.value * expansionPerK;
  return combine(flow.value * factor, [
    { input: flow, derivative: factor },
    { input: to.pressurePa, derivative: -perPa },
    { input: from.pressurePa, derivative: perPa },
    { input: bulkModulusPa, derivative: (flow.value * risePa) / bulkModulusPa.value ** 2 },
    { input: to.temperatureK, derivative: perK },
    { input: from.temperatureK, derivative: -perK },
  ]);
}
