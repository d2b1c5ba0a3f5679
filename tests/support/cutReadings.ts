import type { ChannelName } from '../../analysis/channels.ts';
import type { Readings } from '../../analysis/readings.ts';

/** A part of a run's readings, [from, to); times go on as they were. */
export function cutReadings(readings: Readings, from: number, to: number): Readings {
  const channels = Object.entries(readings.channels).map(([channel, { values, quality }]) => [
    channel,
    { values: values.subarray(from, to), quality: quality.subarray(from, to) },
  ]);
  return { ...readings, elapsedS: readings.elapsedS.subarray(from, to), channels: Object.fromEntries(channels) };
}

/** Every so manieth reading of a run. */
export function everyNth(readings: Readings, step: number): Readings {
  const places = Array.from({ length: Math.ceil(readings.elapsedS.length / step) }, (_, index) => index * step);
  const taken = (values: ArrayLike<number>): number[] => places.map((place) => values[place] ?? Number.NaN);
  const channels: Partial<Record<ChannelName, { values: Float64Array; quality: Uint8Array }>> = Object.fromEntries(
    Object.entries(readings.channels).map(([channel, { values, quality }]) => [
      channel,
      { values: Float64Array.from(taken(values)), quality: Uint8Array.from(taken(quality)) },
    ]),
  );
  return { ...readings, elapsedS: Float64Array.from(taken(readings.elapsedS)), channels };
}
