import { formatStated, type PrintedValue } from './formatStated.ts';
import { no, type Outcome, yes } from './outcome.ts';
import { preferredUnit, type UnitSystem } from './preferredUnit.ts';
import { findUnit, type Quantity, siDifferenceFrom, siFrom, type Unit, unitSymbols } from './units.ts';

/** Why a typed quantity is not understood; `text` says what to type instead. */
export type QuantityTextRefusal = {
  readonly code:
    | 'NOT_A_NUMBER'
    | 'DECIMAL_COMMA'
    | 'UNIT_MISSING'
    | 'UNKNOWN_UNIT'
    | 'OTHER_QUANTITY'
    | 'GAUGE_OR_ABSOLUTE'
    | 'BAROMETER_MISSING'
    | 'BELOW_ABSOLUTE_ZERO';
  readonly typed: string;
  readonly text: string;
};

/** Other spellings of the symbols in the table of units, after superscripts, dots and micro signs are made plain. */
const SPELLINGS: ReadonlyMap<string, string> = new Map([
  ['', '1'],
  ['°C', 'degC'],
  ['C', 'degC'],
  ['°F', 'degF'],
  ['F', 'degF'],
  ['°', 'deg'],
  ['rpm', 'r/min'],
  ['1/min', 'r/min'],
  ['L', 'l'],
  ['L/min', 'l/min'],
  ['L/h', 'l/h'],
  ['ml', 'cm3'],
  ['mL', 'cm3'],
  ['cSt', 'mm2/s'],
  ['cP', 'mPa s'],
  ['Nm', 'N m'],
  ['lbf in', 'in lbf'],
  ['lbf ft', 'ft lbf'],
  ['bara', 'bar(a)'],
  ['barg', 'bar(g)'],
  ['psia', 'psi(a)'],
  ['psig', 'psi(g)'],
  ['"', 'in'],
  ['US gpm', 'US gal/min'],
]);

const FRACTION = /^(?<sign>[+-]?)(?:(?<whole>\d+)[ -])?(?<over>\d+)\/(?<under>\d+)(?<symbol>.*)$/;
const DECIMAL = /^(?<sign>[+-]?)(?<decimal>(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?)(?<symbol>.*)$/;

type Typed = { readonly value: number; readonly symbol: string };

function refuse(code: QuantityTextRefusal['code'], typed: string, text: string): Outcome<never, QuantityTextRefusal> {
  return no({ code, typed, text: `${JSON.stringify(typed)}: ${text}` });
}

/** Number and unit symbol taken apart; the symbol may still be none. */
function takeApart(text: string): Outcome<Typed, QuantityTextRefusal> {
  const plain = text.trim().replaceAll('−', '-').replaceAll('²', '2').replaceAll('³', '3');
  if (/\d,\d/.test(plain)) {
    return refuse('DECIMAL_COMMA', text, 'a comma may stand for a point or part thousands; type 2.5 and 1250');
  }
  const parts = (FRACTION.exec(plain) ?? DECIMAL.exec(plain))?.groups ?? {};
  const { sign, decimal, whole = '0', over, under, symbol = '' } = parts;
  const size = decimal === undefined ? Number(whole) + Number(over) / Number(under) : Number(decimal);
  if (!Number.isFinite(size)) return refuse('NOT_A_NUMBER', text, 'expected a number and its unit, such as 2.5 mm');
  const spelling = symbol.replaceAll(/[·⋅*]/g, ' ').replaceAll(/[µμ]/g, 'u').replaceAll(/\s+/g, ' ').trim();
  return yes({ value: sign === '-' ? -size : size, symbol: SPELLINGS.get(spelling) ?? spelling });
}

function unitFor(text: string, symbol: string, quantity: Quantity): Outcome<Unit, QuantityTextRefusal> {
  const known = unitSymbols(quantity).join(', ');
  if (symbol === '1' && quantity !== 'ratio') return refuse('UNIT_MISSING', text, `expected a unit: ${known}`);
  if (quantity === 'pressure' && unitSymbols('pressure').includes(`${symbol}(g)`)) {
    return refuse('GAUGE_OR_ABSOLUTE', text, `${symbol}(g) above the barometer, or ${symbol}(a) absolute?`);
  }
  const unit = findUnit(symbol, quantity);
  if (unit.ok) return unit;
  const why = unit.reason.code === 'OTHER_QUANTITY' ? `is a unit of ${unit.reason.is}` : 'is not a unit known here';
  return refuse(unit.reason.code, text, `${symbol} ${why}; expected one of ${known}`);
}

/**
 * A typed quantity: '3 in', '2.5mm', '3 1/2 in', '450 r/min', '45 °C', '1.2 bar(g)'. A decimal comma is refused, since
 * 1,250 may mean two numbers a thousand apart; so is a pressure that does not say gauge or absolute.
 *
 * @param text - what was typed [-]
 * @param quantity - what it must be [-]
 * @param barometerPa - for gauge pressures; null where it is not known [Pa]
 * @returns the value [SI unit of the quantity], or why it is not understood [-]
 *
 * Source: factors NIST SP 811 (2008); spelling is ours.
 *
 * @example parseQuantity('2,5 mm', 'length', null).ok // false: a decimal comma
 */
export function parseQuantity(
  text: string,
  quantity: Quantity,
  barometerPa: number | null,
): Outcome<number, QuantityTextRefusal> {
  const typed = takeApart(text);
  if (!typed.ok) return typed;
  const unit = unitFor(text, typed.value.symbol, quantity);
  if (!unit.ok) return unit;
  if (unit.value.isGauge && barometerPa === null) {
    return refuse(
      'BAROMETER_MISSING',
      text,
      `a gauge pressure needs the barometer; give it first, or type an absolute pressure`,
    );
  }
  const si = siFrom(typed.value.value, unit.value, barometerPa ?? 0);
  if ((quantity === 'pressure' || quantity === 'temperature') && si < 0) {
    return refuse('BELOW_ABSOLUTE_ZERO', text, `there is no ${quantity} below absolute zero`);
  }
  return Number.isFinite(si) ? yes(si) : refuse('NOT_A_NUMBER', text, 'too large to be computed with');
}

/**
 * A typed difference or uncertainty: '0.02 mm', '0.5 K', '3 bar'. No zero point takes part: 9 degF are 5 K, and a pressure
 * difference is neither gauge nor absolute.
 *
 * @param text - what was typed [-]
 * @param quantity - what it must be a difference of [-]
 * @returns the difference [SI unit of the quantity], or why it is not understood [-]
 *
 * Source: factors NIST SP 811 (2008).
 *
 * @example parseDifference('3 bar', 'pressure').ok // true: 300 000 Pa
 */
export function parseDifference(text: string, quantity: Quantity): Outcome<number, QuantityTextRefusal> {
  const typed = takeApart(text);
  if (!typed.ok) return typed;
  const { symbol, value } = typed.value;
  const isBarePressure = quantity === 'pressure' && unitSymbols('pressure').includes(`${symbol}(a)`);
  const unit = unitFor(text, isBarePressure ? `${symbol}(a)` : symbol, quantity);
  if (!unit.ok) return unit;
  const si = siDifferenceFrom(value, unit.value);
  return Number.isFinite(si) ? yes(si) : refuse('NOT_A_NUMBER', text, 'too large to be computed with');
}

/**
 * A value printed in the unit a workshop reads it in, with the digits that its uncertainty carries.
 *
 * @param stated - value and expanded uncertainty [SI unit of the quantity]
 * @param quantity - what it is [-]
 * @param system - metric or US customary [-]
 * @returns value, uncertainty and unit as printed [-]
 * @throws RangeError as formatStated
 *
 * @example printQuantity({ value: 0.0762, expandedUncertainty: 2e-5 }, 'length', 'US').value // '3.00000': U is 0.00079 in
 */
export function printQuantity(
  stated: { readonly value: number; readonly expandedUncertainty: number },
  quantity: Quantity,
  system: UnitSystem,
): PrintedValue {
  return formatStated(stated, preferredUnit(quantity, system));
}
