import type { ChannelName } from '../../../analysis/channels.ts';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, channelLabel, shownText } from './channelDisplay.ts';
import { spanOf } from './spanOf.ts';

type Columns = Readonly<Partial<Record<ChannelName, readonly (number | null)[]>>>;

/** What a plot of channels shows, as numbers: the span of each, and its last value where it is live. */
export function ChannelNumbers(shown: {
  readonly channels: Columns;
  readonly barometerPa: number;
  readonly isLive: boolean;
}) {
  const { channels, barometerPa, isLive } = shown;
  const heads = [...(isLive ? ['now'] : []), 'lowest', 'highest'];
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">channel</th>
          {heads.map((head) => (
            <th key={head} scope="col" class="number">
              {head}
            </th>
          ))}
          <th scope="col">unit</th>
        </tr>
      </thead>
      <tbody>
        {CHANNEL_ORDER.map((channel) => {
          const values = channels[channel];
          if (values === undefined) return null;
          const cells = [...(isLive ? [values.at(-1) ?? null] : []), ...spanOf(values)];
          return (
            <tr key={channel}>
              <th scope="row">{channelLabel(channel)}</th>
              {cells.map((value, index) => (
                <td key={heads[index]} class="number">
                  {shownText(channel, value, barometerPa)}
                </td>
              ))}
              <td class="unit">{printedUnit(CHANNEL_DISPLAY[channel].unitSymbol)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}
