import type { PipeFluid } from '../../hydraulics/pipeFriction.ts';
import { STANDARD_GRAVITY_M_PER_S2 } from '../../units.ts';
import { columnResistance } from '../model/columnResistance.ts';
import { pipeTable, type SuctionPipe } from '../model/suctionPipe.ts';

/**
 * Absolute pressure at the inlet of a pump that delivers: p_atm − ρ g h − Δp of pipe and fittings, the velocity head taken off.
 *
 * @param atmospherePa - absolute [Pa]
 * @param pipe - full of oil [SI]
 * @param oil - in it [Pa s, kg/m³]
 * @param flowM3PerS - what the pump draws [m³/s]
 * @returns absolute pressure; below zero: the oil would part before that flow is reached [Pa]
 * @throws RangeError if the pipe cannot be
 *
 * Source: Hydraulic Institute, NPSHA = (p_a − p_v)/(ρ g) − h_lift − h_f, as a pressure.
 */
export function inletPressure(atmospherePa: number, pipe: SuctionPipe, oil: PipeFluid, flowM3PerS: number): number {
  const table = pipeTable(pipe);
  const dropPa = columnResistance(table, oil).dropPa(table.volumeM3, flowM3PerS);
  return atmospherePa - oil.densityKgPerM3 * STANDARD_GRAVITY_M_PER_S2 * table.inletHeightM - dropPa;
}
