import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import { SessionError } from './sessionErrors.ts';

/**
 * A bench record in which one channel has another calibration; not read by its schema yet. Where the calibration brings a
 * curve, the channel's scale goes: raw values pass through the curve alone.
 *
 * @throws SessionError if the bench has no such channel
 */
export function withCalibration(bench: BenchRecord, channel: string, calibration: unknown): object {
  if (!bench.channels.some(({ channel: name }) => name === channel)) {
    throw new SessionError('UNKNOWN_CHANNEL', `bench ${bench.id} has no channel ${JSON.stringify(channel)}`);
  }
  const hasCurve =
    typeof calibration === 'object' && calibration !== null && 'curve' in calibration && calibration.curve !== null;
  return {
    ...bench,
    channels: bench.channels.map((entry) => {
      if (entry.channel !== channel) return entry;
      return { ...entry, calibration, ...(hasCurve ? { scale: { gain: 1, offset: 0 } } : {}) };
    }),
  };
}
