import type { ChannelName } from '../../analysis/channels.ts';
import { type BenchChannel, type BenchRecord, benchRecord } from '../../analysis/records/benchRecord.ts';
import { inventedBench } from './benchRecord.ts';

/** The invented bench with one channel changed, refused or completed as any bench record is. */
export function benchWithChannel(name: ChannelName, change: Readonly<Record<string, unknown>>): BenchRecord {
  const bench = inventedBench();
  return benchRecord.parse({
    ...bench,
    channels: bench.channels.map((entry) => (entry.channel === name ? { ...entry, ...change } : entry)),
  });
}

/** A channel of the invented bench, changed. */
export function channelWith(name: ChannelName, change: Readonly<Record<string, unknown>> = {}): BenchChannel {
  const channel = benchWithChannel(name, change).channels.find((entry) => entry.channel === name);
  if (channel === undefined) throw new Error(name);
  return channel;
}

/** A calibration of the invented bench's day with errors of its own. */
export function inventedCalibration(errors: Readonly<Record<string, unknown>> = {}) {
  const none = { standardUncertainty: 0, shape: 'normal' };
  return {
    reference: 'invented-2',
    calibratedOn: '2026-03-01',
    dueOn: '2027-03-01',
    gain: none,
    offset: none,
    ...errors,
  };
}
