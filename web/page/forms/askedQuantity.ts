import { printedUnit } from '../../../analysis/formatStated.ts';
import { no, type Outcome, yes } from '../../../analysis/outcome.ts';
import { preferredUnit, type UnitSystem } from '../../../analysis/preferredUnit.ts';
import { parseDifference, parseQuantity } from '../../../analysis/quantityText.ts';
import { differenceFrom, type Quantity, readingFrom, type Unit, unitOf } from '../../../analysis/units.ts';

/** A number that a form asks for: what it is, in which unit it is shown, and what it must keep. */
export type AskedQuantity = {
  /** Where it goes in the record, as refusals of the server name it: 'geometry.tipDiameterM.value'. */
  readonly name: string;
  readonly label: string;
  readonly quantity: Quantity;
  /** Uncertainties, pressure differences, barometers: no zero point takes part. */
  readonly isDifference?: boolean;
  /** Where the usual unit of the quantity is not the one to type in. */
  readonly symbols?: Readonly<Record<UnitSystem, string>>;
  /** In SI. */
  readonly above?: number;
  readonly atLeast?: number;
  readonly atMost?: number;
  /** May be left empty. */
  readonly isOptional?: boolean;
  /** Stands there at first, where nothing better is known. */
  readonly usual?: string;
};

/** The unit that a bare number is taken in. */
function unitAsked(asked: AskedQuantity, system: UnitSystem): Unit {
  return asked.symbols === undefined ? preferredUnit(asked.quantity, system) : unitOf(asked.symbols[system]);
}

function symbolAsked(asked: AskedQuantity, system: UnitSystem): string {
  const { symbol } = unitAsked(asked, system);
  const printed = symbol === '1' ? '' : printedUnit(symbol);
  return asked.isDifference === true ? printed.replace(/\([ag]\)$/, '') : printed;
}

/** A typed text with its unit: a bare number gets the usual one, so that it means the same when units are changed. */
export function withUnit(asked: AskedQuantity, text: string, system: UnitSystem): string {
  const trimmed = text.trim();
  return /[\d.]$/.test(trimmed) ? `${trimmed} ${symbolAsked(asked, system)}`.trim() : trimmed;
}

/** An SI value as it would be typed, without the tail of binary fractions. */
export function typedText(asked: AskedQuantity, si: number, system: UnitSystem): string {
  const unit = unitAsked(asked, system);
  const value = asked.isDifference === true ? differenceFrom(si, unit) : readingFrom(si, unit, 0);
  return withUnit(asked, String(Number(value.toPrecision(9))), system);
}

/** Within its limits, or in words why not; limits in the unit that the person types. */
function checked(asked: AskedQuantity, si: number, system: UnitSystem): Outcome<number, string> {
  const { above, atLeast, atMost } = asked;
  const limit = (value: number): string => typedText(asked, value, system);
  if (above !== undefined && !(si > above)) return no(`must be above ${limit(above)}`);
  if (atLeast !== undefined && si < atLeast) return no(`must be at least ${limit(atLeast)}`);
  if (atMost !== undefined && si > atMost) return no(`must be at most ${limit(atMost)}`);
  return yes(si);
}

/**
 * What was typed, in SI; null where a field that may be empty is. With a unit or without: 3 in, 2.5mm, 2.5.
 *
 * @returns the value, or what is wrong and what to type instead
 */
export function readTyped(asked: AskedQuantity, text: string, system: UnitSystem): Outcome<number | null, string> {
  if (text.trim() === '') {
    return asked.isOptional === true ? yes(null) : no(`is needed, such as 1 ${symbolAsked(asked, system)}`.trim());
  }
  const whole = withUnit(asked, text, system);
  const read =
    asked.isDifference === true ? parseDifference(whole, asked.quantity) : parseQuantity(whole, asked.quantity, null);
  return read.ok ? checked(asked, read.value, system) : no(read.reason.text);
}
