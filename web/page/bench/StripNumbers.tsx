import { useState } from 'preact/hooks';
import { printedUnit } from '../../../analysis/formatStated.ts';
import { stripRows } from '../live/liveBench.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, channelLabel, shownText } from '../words/channelDisplay.ts';
import { spanOf } from '../words/spanOf.ts';

function NumbersTable({ barometerPa }: { readonly barometerPa: number }) {
  const { channels } = stripRows.value;
  return (
    <table>
      <thead>
        <tr>
          <th scope="col">channel</th>
          <th scope="col" class="number">
            now
          </th>
          <th scope="col" class="number">
            lowest
          </th>
          <th scope="col" class="number">
            highest
          </th>
          <th scope="col">unit</th>
        </tr>
      </thead>
      <tbody>
        {CHANNEL_ORDER.map((channel) => {
          const values = channels[channel];
          if (values === undefined) return null;
          const [low, high] = spanOf(values);
          return (
            <tr key={channel}>
              <th scope="row">{channelLabel(channel)}</th>
              <td class="number">{shownText(channel, values.at(-1) ?? null, barometerPa)}</td>
              <td class="number">{shownText(channel, low, barometerPa)}</td>
              <td class="number">{shownText(channel, high, barometerPa)}</td>
              <td class="unit">{printedUnit(CHANNEL_DISPLAY[channel].unitSymbol)}</td>
            </tr>
          );
        })}
      </tbody>
    </table>
  );
}

/** The strips as numbers, for those who do not see them; worked out only while they are open. */
export function StripNumbers({ barometerPa }: { readonly barometerPa: number }) {
  const [isOpen, setOpen] = useState(false);
  return (
    <details onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>These strips as numbers</summary>
      {isOpen && <NumbersTable barometerPa={barometerPa} />}
    </details>
  );
}
