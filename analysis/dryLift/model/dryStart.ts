import type { PipeFluid } from '../../hydraulics/pipeFriction.ts';
import { type DryRunning, requireRunning } from './dryPump.ts';
import { type PipeTable, pipeTable, type SuctionPipe } from './suctionPipe.ts';

/** A dry start from a lift: what is known before the motor turns. */
export type DryStart = DryRunning & {
  readonly pipe: SuctionPipe;
  /** Gas between the flange and the gears, > 0. */
  readonly deadVolumeM3: number;
  /** The oil that rises: as warm as the tank. */
  readonly oil: PipeFluid;
  /** Chambers and teeth that oil must fill before it leaves the outlet. */
  readonly outletVolumeM3: number;
  /** From the outlet to where sustained delivery is seen; 0: at the outlet. */
  readonly deliveryLineVolumeM3: number;
};

/** A start with the suction blanked off: no oil is taken. */
export type BlankedStart = DryRunning & { readonly closedVolumeM3: number };

/** Oil filling at which the dead volume counts as full: a rest of gas is swept through with the oil [1]. */
export const FULL_SHARE = 0.99;

/**
 * Refuses a start that cannot be and lays its pipe out.
 *
 * @param start - pump, pipe, oil, volumes [SI]
 * @returns the pipe with volume and height along it [SI]
 * @throws RangeError if a number is not finite or has the wrong sign
 */
export function requireStart(start: DryStart): PipeTable {
  requireRunning(start);
  for (const [name, value] of [
    ['deadVolumeM3', start.deadVolumeM3],
    ['oil.dynamicViscosityPaS', start.oil.dynamicViscosityPaS],
    ['oil.densityKgPerM3', start.oil.densityKgPerM3],
  ] as const) {
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name}: ${value} is not a number above zero`);
  }
  for (const name of ['outletVolumeM3', 'deliveryLineVolumeM3'] as const) {
    if (!(Number.isFinite(start[name]) && start[name] >= 0)) {
      throw new RangeError(`${name}: ${start[name]}, expected zero or more`);
    }
  }
  return pipeTable(start.pipe);
}
