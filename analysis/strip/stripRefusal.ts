import { differenceFrom, unitOf } from '../units.ts';

/** Why a strip sheet gives no clearance or no gap map: which quantity, its value and the limit, in SI. */
export type StripRefusal = {
  readonly code:
    | 'GASKET_THICKER_THAN_RECESS'
    | 'CRUSH_BEYOND_GASKET'
    | 'NEGATIVE_CLEARANCE'
    | 'GEAR_TOUCHES_CASING'
    | 'SHAFT_WIDER_THAN_ROOT'
    | 'NOT_MEASURED';
  readonly quantity: string;
  readonly value: number;
  readonly limit: number;
  readonly text: string;
};

/** A length as refusals print it: micrometres show. */
export function inMillimetres(lengthM: number): string {
  return `${differenceFrom(lengthM, unitOf('mm')).toFixed(3)} mm`;
}

/** What the sheet lacks: there is no value, so value and limit are how many were measured and how many are needed. */
export function notMeasured(quantity: string): StripRefusal {
  return { code: 'NOT_MEASURED', quantity, value: 0, limit: 1, text: `${quantity}: not on the strip sheet` };
}
