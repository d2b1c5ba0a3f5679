import { CHANNEL_NAMES } from '../../analysis/channels.ts';
import type { ReadingRow } from '../../analysis/guide/readingWindow.ts';
import type { LiveReading } from './sessionState.ts';

/** A reading as it is shown live: JSON has no NaN. */
export function liveReading(row: ReadingRow): LiveReading {
  const values: Record<string, number | null> = {};
  for (const channel of CHANNEL_NAMES) {
    const value = row.values[channel];
    if (value !== undefined) values[channel] = Number.isNaN(value) ? null : value;
  }
  return { atS: row.atS, values };
}
