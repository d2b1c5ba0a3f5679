import type { ChannelName } from '../../analysis/channels.ts';
import { QUALITY, type Readings } from '../../analysis/readings.ts';

/** Readings sampled from functions of time, all good. */
export function sampledReadings(
  durationS: number,
  readingsPerS: number,
  channels: Readonly<Partial<Record<ChannelName, (atS: number) => number>>>,
): Readings {
  const elapsedS = Float64Array.from(
    { length: Math.round(durationS * readingsPerS) },
    (_, index) => index / readingsPerS,
  );
  const columns = Object.entries(channels).map(([channel, valueAt]) => [
    channel,
    { values: elapsedS.map(valueAt), quality: new Uint8Array(elapsedS.length).fill(QUALITY.good) },
  ]);
  return { elapsedS, channels: Object.fromEntries(columns), clock: 'device', clockTie: null };
}
