import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { blankOffPressure } from './blankedSuction.ts';
import type { DryRunning } from './dryPump.ts';

/**
 * The column that a suction pressure carries: h = (p_atm − p)/(ρ g).
 *
 * @param atmospherePa - absolute [Pa]
 * @param suctionPressurePa - absolute [Pa]
 * @param densityKgPerM3 - of the oil, > 0 [kg/m³]
 * @returns height of the standing column; negative where the suction is above the atmosphere [m]
 *
 * Source: hydrostatics.
 *
 * @example liftOfPressure(101325, 101325 - 980.665, 1000) // 0.1
 */
export function liftOfPressure(atmospherePa: number, suctionPressurePa: number, densityKgPerM3: number): number {
  return (atmospherePa - suctionPressurePa) / (densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2);
}

/**
 * Dry lift limit of a pump: the lift at which the gas taken equals the gas that comes back with the column standing. The
 * column then carries the blank-off pressure.
 *
 * @param running - pump and surroundings [SI]
 * @param speedRevPerS - shaft speed, > 0 [rev/s]
 * @param densityKgPerM3 - of the oil, > 0 [kg/m³]
 * @returns the limit [m]
 *
 * Source: definition in this project; gas balance derived here.
 */
export function dryLiftLimitOf(running: DryRunning, speedRevPerS: number, densityKgPerM3: number): number {
  return liftOfPressure(running.atmospherePa, blankOffPressure(running, speedRevPerS), densityKgPerM3);
}
