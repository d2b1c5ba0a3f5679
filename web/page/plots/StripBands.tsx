import { effect, useComputed } from '@preact/signals';
import { useLayoutEffect, useRef } from 'preact/hooks';
import uPlot from 'uplot';
import type { ChannelName } from '../../../analysis/channels.ts';
import { stripNews, strips } from '../live/liveBench.ts';
import { STRIP_SPAN_S } from '../live/stripBuffer.ts';
import { CHANNEL_ORDER, shownValue } from '../words/channelDisplay.ts';
import { Band } from './Band.tsx';
import { bandOptions } from './bandOptions.ts';
import { drawInTurn } from './inTurn.ts';
import { paperColors } from './paper.ts';
import { useWidth } from './useWidth.ts';

const BAND_PX = 72;

function timeTexts(values: readonly number[]): string[] {
  return values.map((value) => (value === 0 ? 'now' : `−${-value} s`));
}

function StripBand(band: {
  readonly channel: ChannelName;
  readonly widthPx: number;
  readonly isLowest: boolean;
  readonly barometerPa: number;
}) {
  const { channel, widthPx, isLowest, barometerPa } = band;
  const holder = useRef<HTMLDivElement>(null);
  const plot = useRef<uPlot | null>(null);
  const colors = paperColors.value;

  useLayoutEffect(() => {
    if (holder.current === null || widthPx === 0) return;
    plot.current = new uPlot(
      bandOptions({
        channel,
        widthPx,
        heightPx: BAND_PX,
        hasTimeAxis: isLowest,
        xRange: [-STRIP_SPAN_S, 0],
        timeTexts,
        colors,
        syncKey: null,
        hooks: {},
      }),
      [[], []],
      holder.current,
    );
    return () => {
      plot.current?.destroy();
      plot.current = null;
    };
  }, [channel, widthPx, isLowest, colors]);

  useLayoutEffect(
    () =>
      effect(() => {
        stripNews.value;
        return drawInTurn(holder, () => {
          const values = strips.column(channel);
          plot.current?.setData([
            [...strips.atS],
            values.map((value) => (value === null ? null : shownValue(channel, value, barometerPa))),
          ]);
        });
      }),
    [channel, widthPx, isLowest, colors, barometerPa],
  );

  return <Band channel={channel} holder={holder} over="over the last two minutes" />;
}

/** The last two minutes, one band a channel, time common to all. */
export function StripBands({ barometerPa }: { readonly barometerPa: number }) {
  const { ref, widthPx } = useWidth();
  const names = useComputed(() => (stripNews.value === 0 ? '' : strips.channelNames.join(' ')));
  const known = names.value.split(' ');
  const channels = CHANNEL_ORDER.filter((name) => known.includes(name));
  return (
    <div ref={ref} class="bands" data-testid="strips">
      {channels.map((channel, index) => (
        <StripBand
          key={channel}
          channel={channel}
          widthPx={widthPx}
          isLowest={index === channels.length - 1}
          barometerPa={barometerPa}
        />
      ))}
    </div>
  );
}
