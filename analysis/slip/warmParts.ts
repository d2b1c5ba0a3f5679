import { no } from '../outcome.ts';
import { inMillimetres, type StripRefusal } from '../strip/stripRefusal.ts';
import { warmClearance } from './expansion.ts';
import type { QuantityReader } from './gapMap.ts';

/** Radial clearance of a rotor in the body's bore when both are warm [m]. */
export function warmTipClearance(read: QuantityReader, id: string, tipDiameterM: number, warmingK: number): number {
  const diametralM = warmClearance(
    {
      clearanceM: 2 * read(id),
      insideM: tipDiameterM,
      outsideExpansionPerK: read('bodyExpansion'),
      insideExpansionPerK: read('gearExpansion'),
    },
    warmingK,
  );
  return diametralM / 2;
}

/** End float of rotors in the body when both are warm [m]. */
export function warmEndFloat(read: QuantityReader, faceWidthM: number, warmingK: number): number {
  return warmClearance(
    {
      clearanceM: read('endFloat'),
      insideM: faceWidthM,
      outsideExpansionPerK: read('bodyExpansion'),
      insideExpansionPerK: read('gearExpansion'),
    },
    warmingK,
  );
}

/** Diametral clearance of a steel or other shaft in its bush when both are warm [m]. */
export function warmBushClearance(read: QuantityReader, id: string, shaftDiameterM: number, warmingK: number): number {
  return warmClearance(
    {
      clearanceM: read(id),
      insideM: shaftDiameterM,
      outsideExpansionPerK: read('bushExpansion'),
      insideExpansionPerK: read('gearExpansion'),
    },
    warmingK,
  );
}

/** The refusal that parts bind when warm. */
export function binding(quantity: string, clearanceM: number): { readonly ok: false; readonly reason: StripRefusal } {
  return no({
    code: 'NEGATIVE_CLEARANCE',
    quantity: `${quantity}, warm [m]`,
    value: clearanceM,
    limit: 0,
    text: `${quantity} is ${inMillimetres(clearanceM)} when warm: the parts bind at this temperature`,
  });
}
