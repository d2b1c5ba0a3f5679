import type { Source, Uncertain } from '../../uncertainty/source.ts';
import type { RiserCheck } from './riserChecks.ts';

/** What stands readings of the suction on a clear riser: to be added to them, with the sources of tape and moment [Pa]. */
export type RiserDatum = { readonly datumPa: Uncertain; readonly sources: readonly Source[] };

/**
 * The riser on which a suction channel can stand that was neither zeroed nor read at rest.
 *
 * @param checks - of the run [-]
 * @returns the first that agrees with the channel at a known time; null: none does [Pa]
 */
export function riserDatum(checks: readonly RiserCheck[]): RiserDatum | null {
  for (const { atS, verdict, datumPa, sources } of checks) {
    if (atS !== null && verdict === 'agrees' && datumPa !== null) return { datumPa, sources };
  }
  return null;
}
