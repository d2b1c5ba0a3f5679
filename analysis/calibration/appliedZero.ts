import type { ZeroCheck } from '../records/runRecord.ts';

/** What a zero check said of one channel. */
export type ChannelZero = ZeroCheck['channels'][number];

/**
 * The zero that is taken off a channel's readings.
 *
 * @param zeroCheck - of the run; null where none was taken [-]
 * @param channel - name of the channel [-]
 * @returns the channel's entry; null where it was not measured, or measured and not applied [channel's own unit]
 */
export function appliedZero(zeroCheck: ZeroCheck | null, channel: string): ChannelZero | null {
  return zeroCheck?.channels.find((entry) => entry.channel === channel && entry.isApplied) ?? null;
}
