import { decimalsFor, formatStated, printedUnit, printFixed } from '../../../analysis/formatStated.ts';
import { differenceFrom, readingFrom, unitOf } from '../../../analysis/units.ts';

type ValueAndU = { readonly value: number; readonly expandedUncertainty: number };

/** '11.40 ± 0.12 l/min', in the shop's unit; `as` where another symbol is wanted: a difference of pressures in plain bar. */
export function withUncertainty(stated: ValueAndU, symbol: string, as?: string): string {
  const { value, expandedUncertainty, unit } = formatStated(stated, unitOf(symbol));
  return `${value} ± ${expandedUncertainty} ${as ?? unit}`.trim();
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

/**
 * A column of values printed with the same number of decimals, so that their points stand under each other: as many as the
 * largest uncertainty among them carries with two digits.
 *
 * @param column - values with expanded uncertainties; null: none [SI unit of the quantity]
 * @param symbol - of the unit to print in [-]
 * @returns a text for each value, '–' for none, and the largest uncertainty [unit]
 */
export function alignedColumn(
  column: readonly (ValueAndU | null)[],
  symbol: string,
): { readonly cells: readonly string[]; readonly largestU: string } {
  const unit = unitOf(symbol);
  const largest = Math.max(0, ...column.map((entry) => differenceFrom(entry?.expandedUncertainty ?? 0, unit)));
  const decimals = largest === 0 ? 3 : Math.max(0, decimalsFor(largest, 2));
  return {
    cells: column.map((entry) => (entry === null ? '–' : printFixed(readingFrom(entry.value, unit, 0), decimals))),
    largestU: largest === 0 ? '–' : printFixed(largest, decimals),
  };
}
