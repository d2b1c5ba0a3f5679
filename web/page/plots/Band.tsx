import type { RefObject } from 'preact';
import type { ChannelName } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { CHANNEL_DISPLAY, channelLabel } from '../words/channelDisplay.ts';

/** A channel's band: its name in the margin, and the place that a plot is drawn into. */
export function Band(band: {
  readonly channel: ChannelName;
  readonly holder: RefObject<HTMLDivElement | null>;
  /** What the band covers: 'over the whole run'. */
  readonly over: string;
}) {
  const { name, unitSymbol } = CHANNEL_DISPLAY[band.channel];
  return (
    <div class="band">
      <p class="band-name">
        {name} <span class="unit">{printedUnit(unitSymbol)}</span>
      </p>
      <div
        ref={band.holder}
        role="img"
        aria-label={`${channelLabel(band.channel)} ${band.over}; its numbers stand in the table below`}
      />
    </div>
  );
}
