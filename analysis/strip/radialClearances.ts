import type { Outcome } from '../outcome.ts';
import type { ShaftInBush, TipClearance } from '../records/stripSheet.ts';
import { type Clearance, clearanceFrom } from './clearance.ts';
import type { StripRefusal } from './stripRefusal.ts';

/**
 * Radial clearance of a gear's or screw's tips in their bore: felt directly, or half of bore less tip diameter.
 *
 * @param tip - how it was measured [m]
 * @returns radial clearance with `strip.tip.*` sources [m]; or that it is negative [-]
 */
export function tipClearanceOf(tip: TipClearance): Outcome<Clearance, StripRefusal> {
  const quantity = `tip clearance, ${tip.part}`;
  if (tip.method === 'direct') {
    return clearanceFrom(quantity, [{ id: `tip.${tip.part}`, label: quantity, measured: tip.clearanceM, times: 1 }]);
  }
  return clearanceFrom(quantity, [
    { id: `tip.${tip.part}.bore`, label: `bore, ${tip.part}`, measured: tip.boreDiameterM, times: 0.5 },
    { id: `tip.${tip.part}.tip`, label: `tip diameter, ${tip.part}`, measured: tip.tipDiameterM, times: -0.5 },
  ]);
}

/**
 * Diametral clearance of a shaft in its bush.
 *
 * @param bush - bore and shaft diameter [m]
 * @param index - which of the sheet's bushes, from 0; names its sources [-]
 * @returns bore less shaft, with `strip.bush.<index>.*` sources [m]; or that it is negative [-]
 */
export function bushClearanceOf(bush: ShaftInBush, index: number): Outcome<Clearance, StripRefusal> {
  return clearanceFrom(`clearance of the shaft, ${bush.where}`, [
    { id: `bush.${index}.bore`, label: `bush bore, ${bush.where}`, measured: bush.boreDiameterM, times: 1 },
    { id: `bush.${index}.shaft`, label: `shaft diameter, ${bush.where}`, measured: bush.shaftDiameterM, times: -1 },
  ]);
}
