import type { Readings } from '../readings.ts';
import { createHoldFinder } from './holdFinder.ts';
import { type HoldSearch, holdColumns, type Stretch } from './holdSearch.ts';

export { channelLabels, HOLD_CHANNELS, type HoldSearch, leadAfterChangeS } from './holdSearch.ts';

/**
 * Finds the holds of a run: the stretches in which every hold channel's half-second means stay within ± its limit for
 * the least duration and longer, the shaft turning. The lead after a change is left out. Single wild readings neither
 * break a hold nor move a block's mean (reachOf says which are wild); a gap in time of half the least duration ends a hold.
 *
 * @param readings - a run, or the last part of one [n readings, oldest first]
 * @param search - limits, barometer [Pa] and lead [s]
 * @returns stretches of readings, oldest first, not overlapping; none where a channel is missing [-]
 *
 * Source: steady state by permissible variation, in the manner of ISO 4409; the limits stand in the bench record.
 */
export function findHolds(readings: Readings, search: HoldSearch): readonly Stretch[] {
  if ('missing' in holdColumns(readings)) return [];
  const finder = createHoldFinder(search);
  finder.push(readings);
  return finder.finish();
}
