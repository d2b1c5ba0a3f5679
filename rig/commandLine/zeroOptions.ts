import { type Command, InvalidArgumentError } from 'commander';
import { withApplied } from '../../analysis/calibration/zeroCheck.ts';
import { CHANNELS, type ChannelName, isChannelName } from '../../analysis/channels.ts';
import type { BenchRecord } from '../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../analysis/records/runRecord.ts';
import { WrongUse } from './wrongUse.ts';

/** Whose zeros are taken off the readings of a run. */
export type ZeroOptions = {
  /** Take the zeros before the run, at rest. */
  readonly zeroCheck: boolean;
  /** Channels to be zeroed; a check is then taken, asked for or not. */
  readonly applyZero?: 'all' | readonly ChannelName[];
};

function channelsToZero(text: string): 'all' | readonly ChannelName[] {
  if (text === 'all') return text;
  return text.split(',').map((name) => {
    if (isChannelName(name)) return name;
    throw new InvalidArgumentError(`Expected 'all', or channels with commas between: there is no channel '${name}'.`);
  });
}

export function withZeroOptions(command: Command): Command {
  return command
    .option('--zero-check', 'before the run, at rest with the valve open, note what the channels say', false)
    .option(
      '--apply-zero <channels>',
      "take these zeros off the readings: names with commas, or 'all'",
      channelsToZero,
    );
}

/**
 * The check with the channels marked that were asked for.
 *
 * @param zeroCheck - as taken [-]
 * @param wanted - as asked for on the command line [-]
 * @throws WrongUse if the zero of one of them was not measured
 */
export function zeroAsAsked(zeroCheck: ZeroCheck, wanted: ZeroOptions['applyZero']): ZeroCheck {
  const measured = zeroCheck.channels.flatMap(({ channel }) => (isChannelName(channel) ? [channel] : []));
  const channels = wanted === 'all' ? measured : (wanted ?? []);
  const without = channels.filter((channel) => !measured.includes(channel));
  if (without.length > 0) {
    throw new WrongUse(
      `--apply-zero: the zero of ${without.join(', ')} was not measured; it was of ${measured.join(', ')}`,
    );
  }
  return withApplied(zeroCheck, channels);
}

/** What the channels said at rest, a line each, in the unit of the bench record. */
export function zeroText({ channels }: ZeroCheck, bench: BenchRecord): string {
  const lines = channels.map(({ channel, offset, standardUncertainty, isApplied }) => {
    const unit = bench.channels.find((entry) => entry.channel === channel)?.unit ?? '';
    const label = isChannelName(channel) ? CHANNELS[channel].label : channel;
    const value = `${offset.toPrecision(3)} ${unit}, standard uncertainty ${standardUncertainty.toPrecision(2)}`;
    return `  ${label.padEnd(20)}${value}; ${isApplied ? 'taken off' : 'noted only'}`;
  });
  return ['zeros at rest:', ...lines].join('\n');
}
