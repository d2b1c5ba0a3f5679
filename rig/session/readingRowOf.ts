import { CHANNEL_NAMES, type ChannelName } from '../../analysis/channels.ts';
import type { ReadingRow as LiveRow } from '../../analysis/guide/readingWindow.ts';
import type { ReadingRow } from '../decode/lineDecoder.ts';

/** A decoded reading as the guide's window takes it; time from the bench's clock where it has one [s]. */
export function readingRowOf(row: ReadingRow): LiveRow {
  const values: Partial<Record<ChannelName, number>> = {};
  const quality: Partial<Record<ChannelName, number>> = {};
  for (const channel of CHANNEL_NAMES) {
    const reading = row.channels[channel];
    if (reading === undefined) continue;
    values[channel] = reading.value;
    quality[channel] = reading.quality;
  }
  return { atS: (row.deviceUs ?? row.arrivalUs) / 1e6, values, quality };
}
