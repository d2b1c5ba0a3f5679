import { type Quantity, type Unit, unitOf } from './units.ts';

/** 'US': US customary. The oil trade speaks of viscosity in mm²/s (cSt) and mPa s (cP) there too. */
export type UnitSystem = 'metric' | 'US';

const PREFERRED_SYMBOLS: Readonly<Record<Quantity, Readonly<Record<UnitSystem, string>>>> = {
  pressure: { metric: 'bar(a)', US: 'psi(a)' },
  flow: { metric: 'l/min', US: 'US gal/min' },
  speed: { metric: 'r/min', US: 'r/min' },
  temperature: { metric: 'degC', US: 'degF' },
  time: { metric: 's', US: 's' },
  length: { metric: 'mm', US: 'in' },
  torque: { metric: 'N m', US: 'in lbf' },
  sweptVolume: { metric: 'cm3/rev', US: 'in3/rev' },
  volume: { metric: 'cm3', US: 'in3' },
  angle: { metric: 'deg', US: 'deg' },
  kinematicViscosity: { metric: 'mm2/s', US: 'mm2/s' },
  dynamicViscosity: { metric: 'mPa s', US: 'mPa s' },
  density: { metric: 'kg/m3', US: 'lb/ft3' },
  power: { metric: 'kW', US: 'hp' },
  ratio: { metric: '%', US: '%' },
};

/**
 * The unit in which a workshop reads a quantity of a pump. Pressures are absolute, so that nothing else need be known;
 * where they are to be shown over a barometer, name the gauge unit instead.
 *
 * @param quantity - what is printed [-]
 * @param system - metric or US customary [-]
 * @returns the unit [-]
 *
 * Source: common practice, no source.
 *
 * @example preferredUnit('sweptVolume', 'US').symbol // 'in3/rev'
 */
export function preferredUnit(quantity: Quantity, system: UnitSystem): Unit {
  return unitOf(PREFERRED_SYMBOLS[quantity][system]);
}
