import type { ChannelName } from '../../../../analysis/channels.ts';
import { printedUnit } from '../../../../analysis/formatStated.ts';
import type { ReadingsWindow, RunReadings } from '../../../api.ts';
import { CHANNEL_COLOR_PROPERTY } from '../../plots/palette.ts';
import type { PlotTable } from '../../plots/plotTable.ts';
import type { TimeBand } from '../../plots/TimeBands.tsx';
import type { TimeSpan } from '../../plots/timeSpan.ts';
import { CHANNEL_DISPLAY, CHANNEL_ORDER, shownValue } from '../../words/channelDisplay.ts';

type Channels = ReadingsWindow['channels'];

/** The whole run as it is kept to be drawn at once, every channel with the times of all. */
export function overviewChannels({ elapsedS, channels }: RunReadings): Channels {
  const found: Partial<Record<ChannelName, { elapsedS: readonly number[]; values: readonly (number | null)[] }>> = {};
  for (const name of CHANNEL_ORDER) {
    const values = channels[name];
    if (values !== undefined) found[name] = { elapsedS, values };
  }
  return found;
}

function bandLabel(channel: ChannelName): string {
  const { name, unitSymbol } = CHANNEL_DISPLAY[channel];
  return `${name} [${printedUnit(unitSymbol)}]`;
}

/** A channel's values in the unit that it is shown in. */
function shownValues(
  channel: ChannelName,
  values: readonly (number | null)[],
  barometerPa: number,
): readonly (number | null)[] {
  return values.map((value) => (value === null ? null : shownValue(channel, value, barometerPa)));
}

/** A band for each channel that there is, in the order in which a fitter looks at them. */
export function recordBands(channels: Channels, barometerPa: number): readonly TimeBand[] {
  return CHANNEL_ORDER.flatMap((channel): readonly TimeBand[] => {
    const found = channels[channel];
    if (found === undefined) return [];
    return [
      {
        id: channel,
        label: bandLabel(channel),
        leastSpan: CHANNEL_DISPLAY[channel].leastSpan,
        series: [
          {
            label: channel,
            style: { color: `var(${CHANNEL_COLOR_PROPERTY[channel]})`, dash: [], marker: 'circle' },
            elapsedS: found.elapsedS,
            values: shownValues(channel, found.values, barometerPa),
          },
        ],
      },
    ];
  });
}

/** What is drawn, value by value, each at its own time. */
export function recordTable(bands: readonly TimeBand[], [fromS, toS]: TimeSpan): PlotTable {
  return {
    columns: ['channel', 'time [s]', 'value'],
    rows: bands.flatMap(({ label, series }) =>
      series.flatMap(({ elapsedS, values }) =>
        elapsedS.flatMap((timeS, at): PlotTable['rows'] =>
          timeS < fromS || timeS > toS ? [] : [[label, timeS, values[at] ?? null]],
        ),
      ),
    ),
  };
}
