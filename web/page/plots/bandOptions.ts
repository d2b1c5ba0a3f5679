import type uPlot from 'uplot';
import type { ChannelName } from '../../../analysis/channels.ts';
import { CHANNEL_DISPLAY } from '../words/channelDisplay.ts';
import type { PaperColors } from './paper.ts';

const FONT = "14px 'Source Sans 3', sans-serif";
const AXIS_PX = 56;

/** A scale that holds all values with some air, and never less than the channel's least span. */
function yRange(channel: ChannelName): uPlot.Scale.Range {
  const { leastSpan } = CHANNEL_DISPLAY[channel];
  return (_plot, min, max) => {
    const low = min ?? 0;
    const high = max ?? 0;
    const air = Math.max((leastSpan - (high - low)) / 2, 0.05 * (high - low));
    return [low - air, high + air];
  };
}

/** Scale numbers as everywhere on the page: no separators, a true minus sign. */
function plainTexts(_plot: uPlot, values: readonly number[]): string[] {
  return values.map((value) => String(Number(value.toPrecision(6))).replace('-', '−'));
}

/** One band of a strip or a record: a channel over time. The lowest band alone carries the time scale. */
export function bandOptions(band: {
  readonly channel: ChannelName;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly hasTimeAxis: boolean;
  readonly xRange: uPlot.Scale.Range;
  readonly timeTexts: (values: readonly number[]) => string[];
  readonly colors: PaperColors;
  readonly syncKey: string | null;
  readonly hooks: uPlot.Hooks.Arrays;
}): uPlot.Options {
  const { colors, channel } = band;
  const line = { stroke: colors.rule, width: 1 };
  return {
    width: band.widthPx,
    height: band.heightPx + (band.hasTimeAxis ? 32 : 0),
    legend: { show: false },
    padding: [10, 24, band.hasTimeAxis ? 0 : 10, 0],
    cursor:
      band.syncKey === null
        ? { show: false }
        : { y: false, points: { show: false }, drag: { x: true, y: false }, sync: { key: band.syncKey } },
    scales: { x: { time: false, range: band.xRange }, y: { range: yRange(channel) } },
    axes: [
      {
        show: band.hasTimeAxis,
        stroke: colors.faint,
        font: FONT,
        size: 32,
        grid: { show: false },
        ticks: line,
        values: (_plot, values) => band.timeTexts(values),
      },
      {
        stroke: colors.faint,
        font: FONT,
        size: AXIS_PX,
        space: 24,
        grid: line,
        ticks: { show: false },
        values: plainTexts,
      },
    ],
    series: [{}, { stroke: colors.channels[channel], width: 1.5, points: { show: false }, spanGaps: false }],
    hooks: band.hooks,
  };
}
