import { CHANNEL_NAMES, type ChannelName } from '../channels.ts';
import type { Readings } from '../readings.ts';
import { HOLD_CHANNELS, type HoldChannel, type HoldSearch, stillnessLimit } from '../steady/holdSearch.ts';
import { steadyMean } from '../steady/wildReadings.ts';
import type { Stillness } from './guideState.ts';

/** A channel moves in one direction when the two halves of the window differ by more than this share of its limit [1]. */
const DRIFT_SHARE = 1;

function isHoldChannel(channel: ChannelName): channel is HoldChannel {
  return HOLD_CHANNELS.some((candidate) => candidate === channel);
}

function meanOf(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** The window is judged by the means of so many equal parts: noise within a part is not movement. */
const PARTS = 8;

/** Fewer good parts than this say nothing. */
const LEAST_GOOD_PARTS = 4;

/**
 * What stands still and what moves, by the limits and the means without wild readings that findHolds uses, over the last
 * part of a run.
 *
 * @param window - the last few seconds of readings [n readings, oldest first]
 * @param search - the limits [-]
 * @param largestFlowM3PerS - largest flow of the run so far [m³/s]
 * @returns a word for each hold channel that the bench has [-]
 */
export function stillnessOf(
  window: Readings,
  search: HoldSearch,
  largestFlowM3PerS: number,
): Readonly<Partial<Record<ChannelName, Stillness>>> {
  const words: Partial<Record<ChannelName, Stillness>> = {};
  const size = Math.max(1, Math.floor(window.elapsedS.length / PARTS));
  const partCount = Math.floor(window.elapsedS.length / size);
  for (const channel of CHANNEL_NAMES) {
    const column = window.channels[channel];
    if (column === undefined || !isHoldChannel(channel)) continue;
    const limitAt = (value: number): number => stillnessLimit(channel, value, largestFlowM3PerS, search);
    const means = Array.from({ length: partCount }, (_, part) =>
      steadyMean(column, part * size, (part + 1) * size, limitAt),
    ).filter((mean) => !Number.isNaN(mean));
    if (means.length < LEAST_GOOD_PARTS) {
      words[channel] = 'missing';
      continue;
    }
    const limit = limitAt(meanOf(means));
    const half = Math.floor(means.length / 2);
    const drift = meanOf(means.slice(half)) - meanOf(means.slice(0, half));
    if (Math.max(...means) - Math.min(...means) <= 2 * limit) words[channel] = 'steady';
    else if (Math.abs(drift) > DRIFT_SHARE * limit) words[channel] = drift > 0 ? 'rising' : 'falling';
    else words[channel] = 'settling';
  }
  return words;
}
