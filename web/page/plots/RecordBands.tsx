import { useLayoutEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import type { ChannelName } from '../../../analysis/channels.ts';
import type { PlacedMark } from '../../../analysis/placeMarks.ts';
import type { RunReadings } from '../../api.ts';
import { CHANNEL_ORDER, shownValue } from '../words/channelDisplay.ts';
import { Band } from './Band.tsx';
import { bandOptions } from './bandOptions.ts';
import { type PaperColors, paperColors } from './paper.ts';
import { useWidth } from './useWidth.ts';

const BAND_PX = 88;

type Stretch = { readonly startS: number; readonly endS: number };

type Record = {
  readonly readings: RunReadings;
  readonly holds: readonly Stretch[];
  readonly marks: readonly PlacedMark[];
  readonly barometerPa: number;
  readonly syncKey: string;
};

/** Holds as tinted stretches behind the line, marks as numbered lines before it. */
function drawingHooks(
  holds: readonly Stretch[],
  marks: readonly PlacedMark[],
  colors: PaperColors,
): uPlot.Hooks.Arrays {
  return {
    drawClear: [
      (plot) => {
        const { ctx, bbox } = plot;
        ctx.save();
        ctx.beginPath();
        ctx.rect(bbox.left, bbox.top, bbox.width, bbox.height);
        ctx.clip();
        ctx.fillStyle = colors.tint;
        for (const { startS, endS } of holds) {
          const left = plot.valToPos(startS, 'x', true);
          ctx.fillRect(left, bbox.top, plot.valToPos(endS, 'x', true) - left, bbox.height);
        }
        ctx.restore();
      },
    ],
    draw: [
      (plot) => {
        const { ctx, bbox } = plot;
        ctx.save();
        ctx.strokeStyle = colors.ink;
        ctx.fillStyle = colors.ink;
        ctx.textAlign = 'left';
        ctx.textBaseline = 'alphabetic';
        ctx.lineWidth = devicePixelRatio;
        ctx.font = `${14 * devicePixelRatio}px 'Source Sans 3', sans-serif`;
        for (const [index, { elapsedS }] of marks.entries()) {
          if (elapsedS === null) continue;
          const x = plot.valToPos(elapsedS, 'x', true);
          if (x < bbox.left || x > bbox.left + bbox.width) continue;
          ctx.beginPath();
          ctx.moveTo(x, bbox.top);
          ctx.lineTo(x, bbox.top + bbox.height);
          ctx.stroke();
          ctx.fillText(String(index + 1), x + 4 * devicePixelRatio, bbox.top + 14 * devicePixelRatio);
        }
        ctx.restore();
      },
    ],
  };
}

function timeTexts(values: readonly number[]): string[] {
  return values.map((value) => `${Number(value.toFixed(3))} s`);
}

function RecordBand(
  band: Record & { readonly channel: ChannelName; readonly widthPx: number; readonly isLowest: boolean },
) {
  const { channel, widthPx, isLowest, readings, holds, marks, barometerPa, syncKey } = band;
  const holder = useRef<HTMLDivElement>(null);
  const colors = paperColors.value;
  useLayoutEffect(() => {
    if (holder.current === null || widthPx === 0) return;
    const values = readings.channels[channel] ?? [];
    const plot = new uPlot(
      bandOptions({
        channel,
        widthPx,
        heightPx: BAND_PX,
        hasTimeAxis: isLowest,
        xRange: (_plot, min, max) => [min ?? 0, max ?? 1],
        timeTexts,
        colors,
        syncKey,
        hooks: drawingHooks(holds, marks, colors),
      }),
      [
        [...readings.elapsedS],
        values.map((value) => (value === null ? null : shownValue(channel, value, barometerPa))),
      ],
      holder.current,
    );
    return () => plot.destroy();
  }, [channel, widthPx, isLowest, colors, readings]);
  return <Band channel={channel} holder={holder} over="over the whole run" />;
}

/** The whole run, one band a channel, time common to all; looking closer in one looks closer in all. */
export function RecordBands(record: Record) {
  const { ref, widthPx } = useWidth();
  const channels = CHANNEL_ORDER.filter((name) => record.readings.channels[name] !== undefined);
  return (
    <div ref={ref} class="bands" data-testid="record">
      {channels.map((channel, index) => (
        <RecordBand
          key={channel}
          {...record}
          channel={channel}
          widthPx={widthPx}
          isLowest={index === channels.length - 1}
        />
      ))}
    </div>
  );
}
