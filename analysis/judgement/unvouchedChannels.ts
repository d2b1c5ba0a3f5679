import type { ChannelName } from '../channels.ts';
import type { RunKind, RunRecord } from '../records/runRecord.ts';
import { HOLD_CHANNELS } from '../steady/findHolds.ts';

/** Channels that a verdict rests on; what else a bench records decides nothing. */
const DECIDING_CHANNELS: Readonly<Record<RunKind, readonly ChannelName[]>> = {
  delivery: HOLD_CHANNELS,
  dryLift: ['speed', 'flow'],
  blanked: ['speed', 'suctionPressure'],
  suction: HOLD_CHANNELS,
  relief: HOLD_CHANNELS,
};

/**
 * Channels that a verdict of this run rests on and that nobody calibrated: with one of them it is measured, never passed.
 *
 * @param run - run record with its bench [-]
 * @returns names, in the bench's order [-]
 */
export function unvouchedChannels(run: Pick<RunRecord, 'kind' | 'bench'>): readonly ChannelName[] {
  return run.bench.channels
    .filter(({ channel, calibration }) => calibration === null && DECIDING_CHANNELS[run.kind].includes(channel))
    .map(({ channel }) => channel);
}
