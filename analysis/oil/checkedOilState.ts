import { no, type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { differenceFrom, readingFrom, unitOf } from '../units.ts';
import { DENSITY_LAW_LIMITS } from './density.ts';
import type { OilRefusal } from './oilRefusal.ts';
import { type OilState, oilState } from './oilState.ts';
import { viscosityLawRange } from './viscosity.ts';

function inCelsius(temperatureK: number): string {
  return `${readingFrom(temperatureK, unitOf('degC'), 0).toFixed(1)} °C`;
}

function inMm2PerS(viscosityM2PerS: number): string {
  return `${differenceFrom(viscosityM2PerS, unitOf('mm2/s')).toPrecision(4)} mm²/s`;
}

/** What is wrong with the two points themselves; null if nothing. */
function refusePoints({ lower, upper }: OilRecord): OilRefusal | null {
  if (!(upper.temperatureK > lower.temperatureK)) {
    return {
      code: 'TEMPERATURES_NOT_RISING',
      quantity: 'upper temperature [K]',
      value: upper.temperatureK,
      limit: lower.temperatureK,
      text: `the upper temperature of ${inCelsius(upper.temperatureK)} is not above the lower one of ${inCelsius(lower.temperatureK)}`,
    };
  }
  if (!(upper.kinematicViscosityM2PerS < lower.kinematicViscosityM2PerS)) {
    return {
      code: 'NOT_THINNER_WHEN_HOTTER',
      quantity: 'kinematic viscosity at the upper temperature [m²/s]',
      value: upper.kinematicViscosityM2PerS,
      limit: lower.kinematicViscosityM2PerS,
      text: `an oil is thinner when hotter: ${inMm2PerS(upper.kinematicViscosityM2PerS)} at ${inCelsius(upper.temperatureK)} against ${inMm2PerS(lower.kinematicViscosityM2PerS)} at ${inCelsius(lower.temperatureK)}; are the two swapped?`,
    };
  }
  return null;
}

/**
 * State of an oil whose points and temperature may be anything a person can type: what the laws of {@link oilState} have
 * no value for is refused by name.
 *
 * @param oil - two viscosities and the density at 15 °C [-]
 * @param temperatureK - temperature, −50 to 150 °C [K]
 * @returns the oil's state, marked where it is extrapolated [m²/s, Pa s, kg/m³], or why there is none [-]
 * @throws RangeError if the temperature is NaN
 *
 * Source: as oilState; limits of ASTM D341 (0.21 to 2·10⁷ mm²/s) and API MPMS 11.1:2004 (−50 to 150 °C).
 */
export function checkedOilState(oil: OilRecord, temperatureK: number): Outcome<OilState, OilRefusal> {
  if (Number.isNaN(temperatureK)) throw new RangeError('temperatureK: NaN is not a temperature');
  const points = refusePoints(oil);
  if (points !== null) return no(points);
  const law = viscosityLawRange(oil.lower, oil.upper);
  const leastK = Math.max(law.leastK, DENSITY_LAW_LIMITS.leastK);
  const mostK = Math.min(law.mostK, DENSITY_LAW_LIMITS.mostK);
  if (temperatureK < leastK || temperatureK > mostK) {
    return no({
      code: 'TEMPERATURE_OUT_OF_RANGE',
      quantity: 'oil temperature [K]',
      value: temperatureK,
      limit: temperatureK < leastK ? leastK : mostK,
      text: `this oil cannot be computed at ${inCelsius(temperatureK)}: its viscosity and density are known from ${inCelsius(leastK)} to ${inCelsius(mostK)}`,
    });
  }
  return yes(oilState(oil, temperatureK));
}
