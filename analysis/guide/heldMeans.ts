import type { Readings } from '../readings.ts';
import { findHolds } from '../steady/findHolds.ts';
import {
  type HoldChannel,
  type HoldSearch,
  holdColumns,
  mapHoldChannels,
  stillnessLimit,
} from '../steady/holdSearch.ts';
import { steadyMean } from '../steady/wildReadings.ts';

/** Means of one hold, in SI. */
export type HeldMeans = Readonly<Record<HoldChannel, number>>;

/** A point is held this much longer than a hold must last, so that the finished run finds it however its blocks fall [1]. */
const LONGER = 1.5;

/**
 * What the holds of the last part of a run stood at; found by the same function as in the finished run.
 *
 * @param window - readings since the set point was given [n readings, oldest first]
 * @param search - hold limits, barometer, lead [-]
 * @returns means of each hold that lasted long enough, oldest first; none where a channel is missing [SI]
 */
export function heldMeans(window: Readings, search: HoldSearch): readonly HeldMeans[] {
  const columns = holdColumns(window);
  if ('missing' in columns) return [];
  const limits = { ...search.limits, minDurationS: LONGER * search.limits.minDurationS };
  return findHolds(window, { ...search, limits }).map(({ first, end }) =>
    mapHoldChannels((channel) =>
      steadyMean(columns[channel], first, end, (value) => stillnessLimit(channel, value, 0, search)),
    ),
  );
}
