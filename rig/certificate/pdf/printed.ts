import { decimalsFor, formatStated, printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';

type ValueAndU = { readonly value: number; readonly expandedUncertainty: number };

/** '11.40 ± 0.12 l/min', in the shop's unit; `as` where another symbol is wanted: a difference of pressures in plain bar. */
export function withUncertainty(stated: ValueAndU, symbol: string, as?: string): string {
  const { value, expandedUncertainty, unit } = formatStated(stated, unitOf(symbol));
  return `${value} ± ${expandedUncertainty} ${as ?? unit}`.trim();
}

/** The number alone, with the digits its uncertainty carries. */
export function valueOnly(stated: ValueAndU, symbol: string): string {
  return formatStated(stated, unitOf(symbol)).value;
}

/** The expanded uncertainty alone. */
export function uncertaintyOnly(stated: ValueAndU, symbol: string): string {
  return formatStated(stated, unitOf(symbol)).expandedUncertainty;
}

/** A number without stated uncertainty, in the shop's unit, with so many significant digits and the unit. */
export function plain(si: number, symbol: string, significantDigits: number): string {
  const value = readingFrom(si, unitOf(symbol), 0);
  const decimals = value === 0 ? 0 : decimalsFor(value, significantDigits);
  return `${printFixed(value, decimals)} ${printedUnit(symbol)}`.trim();
}

/** '(8.3 ± 1.2)·10^−13 m³': for coefficients that no shop-floor unit fits. */
export function scientific({ value, expandedUncertainty }: ValueAndU, unit: string): string {
  const largest = Math.max(Math.abs(value), expandedUncertainty);
  if (largest === 0) return `0 ${unit}`;
  const exponent = Math.floor(Math.log10(largest));
  const scale = 10 ** -exponent;
  const mantissa = { value: value * scale, expandedUncertainty: expandedUncertainty * scale };
  const { value: printed, expandedUncertainty: u } = formatStated(mantissa, unitOf('1'));
  return `(${printed} ± ${u})·10^${String(exponent).replace('-', '−')} ${unit}`;
}

/** '2026-06-12, 09:00 UTC' */
export function instant(utc: string): string {
  return `${utc.slice(0, 10)}, ${utc.slice(11, 16)} UTC`;
}
