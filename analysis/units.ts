import { no, type Outcome, yes } from './outcome.ts';

/**
 * Every factor between shop-floor units and SI, once. Factors are exact or conventional definitions,
 * NIST Special Publication 811 (2008), appendix B; 1 US gal = 231 in³, 1 in = 25.4 mm, 1 lbf = 0.45359237 kg × g₀,
 * 1 hp = 550 ft lbf/s, 1 mmHg by the conventional density of mercury. Saybolt seconds have no exact factor and are left out.
 */

/** Standard acceleration of gravity g₀ [m/s²]. Source: NIST SP 811 (2008), appendix B.8. */
export const STANDARD_GRAVITY_M_PER_S2 = 9.80665;

/** 0 °C [K]. Source: NIST SP 811 (2008), appendix B.8. */
export const ICE_POINT_K = 273.15;

const INCH_M = 0.0254;
const POUND_KG = 0.45359237;
const POUND_FORCE_N = POUND_KG * STANDARD_GRAVITY_M_PER_S2;
const PSI_PA = POUND_FORCE_N / INCH_M ** 2;
const US_GALLON_M3 = 231 * INCH_M ** 3;
const FOOT_M = 12 * INCH_M;

/** Conventional millimetre of mercury: 1 mm of a liquid of 13 595.1 kg/m³ under g₀ [Pa]. */
const MM_HG_PA = 13.5951 * STANDARD_GRAVITY_M_PER_S2;

export type Quantity =
  | 'pressure'
  | 'flow'
  | 'speed'
  | 'temperature'
  | 'time'
  | 'length'
  | 'torque'
  | 'sweptVolume'
  | 'volume'
  | 'angle'
  | 'kinematicViscosity'
  | 'dynamicViscosity'
  | 'density'
  | 'power'
  | 'ratio';

export type Unit = {
  readonly symbol: string;
  readonly quantity: Quantity;
  /** SI value of one unit step. */
  readonly siPerUnit: number;
  /** SI value at a reading of zero; a gauge pressure adds the barometer to it. */
  readonly siAtZero: number;
  readonly isGauge: boolean;
};

function unit(symbol: string, quantity: Quantity, siPerUnit: number, siAtZero = 0): Unit {
  return { symbol, quantity, siPerUnit, siAtZero, isGauge: false };
}

/** A pressure unit exists only as absolute, gauge or difference: 'bar' alone never names a pressure state. */
function pressureUnits(symbol: string, siPerUnit: number): Unit[] {
  return [
    unit(`${symbol}(a)`, 'pressure', siPerUnit),
    { ...unit(`${symbol}(g)`, 'pressure', siPerUnit), isGauge: true },
  ];
}

const UNIT_LIST: readonly Unit[] = [
  ...pressureUnits('Pa', 1),
  ...pressureUnits('kPa', 1e3),
  ...pressureUnits('MPa', 1e6),
  ...pressureUnits('mbar', 1e2),
  ...pressureUnits('bar', 1e5),
  ...pressureUnits('psi', PSI_PA),
  ...pressureUnits('mmHg', MM_HG_PA),
  ...pressureUnits('inHg', 25.4 * MM_HG_PA),
  unit('m3/s', 'flow', 1),
  unit('l/min', 'flow', 1e-3 / 60),
  unit('l/h', 'flow', 1e-3 / 3600),
  unit('m3/h', 'flow', 1 / 3600),
  unit('US gal/min', 'flow', US_GALLON_M3 / 60),
  unit('rev/s', 'speed', 1),
  unit('r/min', 'speed', 1 / 60),
  unit('K', 'temperature', 1),
  unit('degC', 'temperature', 1, ICE_POINT_K),
  unit('degF', 'temperature', 5 / 9, ICE_POINT_K - (32 * 5) / 9),
  unit('s', 'time', 1),
  unit('ms', 'time', 1e-3),
  unit('min', 'time', 60),
  unit('h', 'time', 3600),
  unit('m', 'length', 1),
  unit('mm', 'length', 1e-3),
  unit('um', 'length', 1e-6),
  unit('in', 'length', INCH_M),
  unit('ft', 'length', FOOT_M),
  unit('N m', 'torque', 1),
  unit('in lbf', 'torque', INCH_M * POUND_FORCE_N),
  unit('ft lbf', 'torque', FOOT_M * POUND_FORCE_N),
  unit('m3', 'volume', 1),
  unit('l', 'volume', 1e-3),
  unit('cm3', 'volume', 1e-6),
  unit('in3', 'volume', INCH_M ** 3),
  unit('US gal', 'volume', US_GALLON_M3),
  unit('rad', 'angle', 1),
  unit('deg', 'angle', Math.PI / 180),
  unit('m3/rev', 'sweptVolume', 1),
  unit('cm3/rev', 'sweptVolume', 1e-6),
  unit('in3/rev', 'sweptVolume', INCH_M ** 3),
  unit('m2/s', 'kinematicViscosity', 1),
  unit('mm2/s', 'kinematicViscosity', 1e-6),
  unit('Pa s', 'dynamicViscosity', 1),
  unit('mPa s', 'dynamicViscosity', 1e-3),
  unit('kg/m3', 'density', 1),
  unit('lb/ft3', 'density', POUND_KG / FOOT_M ** 3),
  unit('W', 'power', 1),
  unit('kW', 'power', 1e3),
  unit('hp', 'power', 550 * FOOT_M * POUND_FORCE_N),
  unit('1', 'ratio', 1),
  unit('%', 'ratio', 0.01),
];

const UNITS_BY_SYMBOL: ReadonlyMap<string, Unit> = new Map(UNIT_LIST.map((entry) => [entry.symbol, entry]));

export type UnitRefusal =
  | { readonly code: 'UNKNOWN_UNIT'; readonly symbol: string; readonly known: readonly string[] }
  | { readonly code: 'OTHER_QUANTITY'; readonly symbol: string; readonly is: Quantity; readonly expected: Quantity };

/** Symbols of a quantity, in the order of the table. */
export function unitSymbols(quantity: Quantity): readonly string[] {
  return UNIT_LIST.filter((entry) => entry.quantity === quantity).map((entry) => entry.symbol);
}

/** Looks up a unit of the expected quantity; an unknown symbol or another quantity is refused by name. */
export function findUnit(symbol: string, expected: Quantity): Outcome<Unit, UnitRefusal> {
  const found = UNITS_BY_SYMBOL.get(symbol);
  if (found === undefined) return no({ code: 'UNKNOWN_UNIT', symbol, known: unitSymbols(expected) });
  if (found.quantity !== expected) return no({ code: 'OTHER_QUANTITY', symbol, is: found.quantity, expected });
  return yes(found);
}

/** The unit of a symbol that is known to be in the table. @throws RangeError if it is not */
export function unitOf(symbol: string): Unit {
  const found = UNITS_BY_SYMBOL.get(symbol);
  if (found === undefined) throw new RangeError(`symbol: no unit is called ${JSON.stringify(symbol)}`);
  return found;
}

/** SI value at a reading of zero [SI unit of the quantity]: the barometer for gauge pressures, 273.15 K for °C. */
export function siAtZeroReading(of: Unit, barometerPa: number): number {
  return of.isGauge ? of.siAtZero + barometerPa : of.siAtZero;
}

/**
 * Reading in a shop-floor unit to SI; gauge pressures become absolute by adding the barometer.
 *
 * @param reading - value in `of` [the unit itself]
 * @param of - its unit [-]
 * @param barometerPa - atmospheric pressure at the bench, used by gauge units alone [Pa]
 * @returns value in SI; NaN for NaN [SI unit of the quantity]
 *
 * Source: NIST SP 811 (2008), appendix B.
 */
export function siFrom(reading: number, of: Unit, barometerPa: number): number {
  return reading * of.siPerUnit + siAtZeroReading(of, barometerPa);
}

/** Inverse of {@link siFrom}. */
export function readingFrom(si: number, of: Unit, barometerPa: number): number {
  return (si - siAtZeroReading(of, barometerPa)) / of.siPerUnit;
}

/** A difference or an uncertainty from a shop-floor unit to SI: no zero point takes part. */
export function siDifferenceFrom(difference: number, of: Unit): number {
  return difference * of.siPerUnit;
}

/** A difference or an uncertainty from SI to a shop-floor unit. */
export function differenceFrom(siDifference: number, of: Unit): number {
  return siDifference / of.siPerUnit;
}
