import { differenceFrom, readingFrom, type Unit, unitOf } from './units.ts';

export type PrintedValue = {
  readonly value: string;
  readonly expandedUncertainty: string;
  /** The unit as it is printed: 'cm³/rev', '°C', 'mPa·s'; empty for a plain ratio. */
  readonly unit: string;
};

const UNCERTAINTY_DIGITS = 2;
const CERTAIN_DIGITS = 4;

const PRINTED_UNITS: Readonly<Record<string, string>> = {
  '1': '',
  degC: '°C',
  degF: '°F',
  deg: '°',
  'N m': 'N·m',
  um: 'µm',
  'in lbf': 'in·lbf',
  'ft lbf': 'ft·lbf',
  'Pa s': 'Pa·s',
  'mPa s': 'mPa·s',
};

/** A unit's symbol as it is printed: superscripts raised, products with a dot. */
export function printedUnit(symbol: string): string {
  return PRINTED_UNITS[symbol] ?? symbol.replace(/(m|in)2/, '$1²').replace(/(m|in|ft)3/, '$1³');
}

/** Place of the last digit kept when `value` is rounded to so many significant digits, as a number of decimals [-]. */
export function decimalsFor(value: number, significantDigits: number): number {
  // toExponential rounds first: 0.0996 to two digits is 1.0e-1, and keeps two decimals, not three.
  const [, exponent = '0'] = Math.abs(value)
    .toExponential(significantDigits - 1)
    .split('e');
  return significantDigits - 1 - Number(exponent);
}

/**
 * A number with so many decimals; a negative count rounds to tens, hundreds, … A true minus sign, as wide as a plus, and
 * never a minus before zero.
 *
 * @param value - any finite number [any unit]
 * @param decimals - digits behind the point, negative: zeros before it [-]
 * @returns the printed number, without spaces [unit of value]
 */
export function printFixed(value: number, decimals: number): string {
  const step = 10 ** -decimals;
  const printed = decimals >= 0 ? value.toFixed(Math.min(decimals, 100)) : (Math.round(value / step) * step).toFixed(0);
  return /[1-9]/.test(printed) ? printed.replace('-', '−') : printed.replace('-', '');
}

/**
 * A shaft speed in whole turns a minute.
 *
 * @param speedRevPerS - speed [rev/s]
 * @returns the number alone [r/min]
 *
 * @example printRpm(15) // '900'
 */
export function printRpm(speedRevPerS: number): string {
  return printFixed(differenceFrom(speedRevPerS, unitOf('r/min')), 0);
}

/**
 * A probability as it is printed: never 0 % or 100 %, which nothing measured deserves.
 *
 * @param probability - 0 to 1 [1]
 * @param decimals - of the percentage; one where nobody asks for another [-]
 * @returns '97.6 %', 'over 99.9 %', 'under 0.1 %' [-]
 *
 * @example formatProbability(0.9764) // '97.6 %'
 */
export function formatProbability(probability: number, decimals = 1): string {
  if (probability > 0.999) return 'over 99.9 %';
  if (probability < 0.001) return 'under 0.1 %';
  return `${printFixed(100 * probability, decimals)} %`;
}

/**
 * A value as it is printed: as many digits as its uncertainty carries, which is given with two significant digits. A
 * value without uncertainty keeps four significant digits.
 *
 * @param stated - value and expanded uncertainty, which is at or above zero [SI unit of the quantity]
 * @param unit - to print in; a difference of pressures may use an absolute unit, whose zero is zero [-]
 * @param barometerPa - atmospheric pressure, asked for by gauge units alone [Pa]
 * @returns value, expanded uncertainty and unit as printed, without spaces in the numbers [unit]
 * @throws RangeError if a number is not finite, the uncertainty is negative, or a gauge unit comes without a barometer
 *
 * Source: JCGM 100:2008, 7.2.6 (at most two significant digits of the uncertainty, the value rounded to match).
 *
 * @example formatStated({ value: 0.00019012, expandedUncertainty: 1.34e-6 }, unitOf('l/min')).value // '11.407': U is 0.080 l/min
 */
export function formatStated(
  stated: { readonly value: number; readonly expandedUncertainty: number },
  unit: Unit,
  barometerPa?: number,
): PrintedValue {
  if (unit.isGauge && barometerPa === undefined) throw new RangeError(`barometerPa: needed to print ${unit.symbol}`);
  const value = readingFrom(stated.value, unit, barometerPa ?? 0);
  const uncertainty = differenceFrom(stated.expandedUncertainty, unit);
  if (!Number.isFinite(value)) throw new RangeError(`value: ${stated.value}, expected a finite number`);
  if (!(uncertainty >= 0 && Number.isFinite(uncertainty))) {
    throw new RangeError(`expandedUncertainty: ${stated.expandedUncertainty}, expected zero or more`);
  }
  const symbol = printedUnit(unit.symbol);
  if (uncertainty === 0) {
    const decimals = value === 0 ? 0 : decimalsFor(value, CERTAIN_DIGITS);
    return { value: printFixed(value, decimals), expandedUncertainty: '0', unit: symbol };
  }
  const decimals = decimalsFor(uncertainty, UNCERTAINTY_DIGITS);
  return { value: printFixed(value, decimals), expandedUncertainty: printFixed(uncertainty, decimals), unit: symbol };
}
