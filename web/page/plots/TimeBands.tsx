import { useId, useState } from 'preact/hooks';
import { printFixed } from '../../../analysis/formatStated.ts';
import { niceTicks } from './niceTicks.ts';
import type { SeriesStyle } from './palette.ts';
import { linePath, spanOfValues } from './timeLine.ts';
import type { TimeSpan } from './timeSpan.ts';
import { useTimeGestures } from './useTimeGestures.ts';

/** One thing over time; null where it is missing. */
type TimeSeries = {
  readonly label: string;
  readonly style: SeriesStyle;
  readonly elapsedS: readonly number[];
  readonly values: readonly (number | null)[];
};

/** A channel's band of a drawing over time. */
export type TimeBand = {
  readonly id: string;
  readonly label: string;
  /** Least height of its scale: noise is not blown up to fill it. */
  readonly leastSpan: number;
  readonly series: readonly TimeSeries[];
};

type Stretch = { readonly number: number; readonly startS: number; readonly endS: number; readonly isOut: boolean };

export type TimeBandsProps = {
  readonly widthPx: number;
  readonly description: string;
  readonly bands: readonly TimeBand[];
  readonly span: TimeSpan;
  readonly whole: TimeSpan;
  readonly stretches: readonly Stretch[];
  /** Numbered in their order; null: it has no place. */
  readonly markedS: readonly (number | null)[];
  /** Null: not spoken of. */
  readonly badLines: readonly { readonly elapsedS: number }[] | null;
  readonly onMove: (span: TimeSpan) => void;
  readonly onRest: (span: TimeSpan) => void;
};

const LEFT = 56;
const RIGHT = 24;
const HEAD_PX = 28;
const BAND_PX = 88;
const NAME_PX = 20;
const BAD_PX = 28;
const AXIS_PX = 40;

/** A number of a stretch is written where there is room for it [CSS px]. */
const NUMBER_ROOM_PX = 18;

function BandLines({
  band,
  span,
  x,
  top,
  clipId,
}: {
  readonly band: TimeBand;
  readonly span: TimeSpan;
  readonly x: (timeS: number) => number;
  readonly top: number;
  readonly clipId: string;
}) {
  const [low, high] = spanOfValues(band.series, span, band.leastSpan);
  const [upper, lower] = [top + NAME_PX, top + BAND_PX - 4];
  const y = (value: number): number => lower - ((value - low) / (high - low)) * (lower - upper);
  const { ticks, decimals } = niceTicks(low, high, 3);
  return (
    <g>
      {ticks.map((tick) => (
        <g key={tick}>
          <path class="grid" d={`M${LEFT},${y(tick)}H${x(span[1])}`} />
          <text class="axis-text" x={LEFT - 8} y={y(tick) + 5} text-anchor="end">
            {printFixed(tick, decimals)}
          </text>
        </g>
      ))}
      {band.series.map(({ label, style, elapsedS, values }) => (
        <path
          key={label}
          d={linePath(elapsedS, values, span, x, y)}
          fill="none"
          stroke={style.color}
          stroke-width="1.5"
          stroke-linejoin="round"
          stroke-linecap="round"
          clip-path={`url(#${clipId})`}
          stroke-dasharray={style.dash.join(' ')}
        />
      ))}
      <text x={LEFT + 4} y={top + 15}>
        {band.label}
      </text>
    </g>
  );
}

/** Channels over one time, a band each: holds shaded and numbered, marks ruled through, bad lines as ticks below. */
export function TimeBands(drawing: TimeBandsProps) {
  const { widthPx, span, whole, bands, stretches, markedS, badLines } = drawing;
  const [marked, setMarked] = useState<TimeSpan | null>(null);
  const clipId = useId();
  const rightPx = widthPx - RIGHT;
  const { onMove, onRest } = drawing;
  const element = useTimeGestures({ span, whole, leftPx: LEFT, rightPx, onMove, onRest, onMark: setMarked });
  const [fromS, toS] = span;
  const x = (timeS: number): number => LEFT + ((timeS - fromS) / (toS - fromS)) * (rightPx - LEFT);
  const bottom = HEAD_PX + bands.length * BAND_PX;
  const heightPx = bottom + BAD_PX + AXIS_PX;
  const { ticks, decimals } = niceTicks(fromS, toS, Math.max(3, Math.floor((rightPx - LEFT) / 96)));
  const shown = stretches.filter(({ startS, endS }) => endS > fromS && startS < toS);
  return (
    <svg ref={element} class="time-bands" width={widthPx} height={heightPx} role="img" aria-label={drawing.description}>
      <clipPath id={clipId}>
        <rect x={LEFT} y={0} width={rightPx - LEFT} height={heightPx} />
      </clipPath>
      <g clip-path={`url(#${clipId})`}>
        {shown.map(({ number, startS, endS, isOut }) => (
          <rect
            key={number}
            class={isOut ? 'stretch out' : 'stretch'}
            x={x(startS)}
            y={HEAD_PX}
            width={Math.max(1, x(endS) - x(startS))}
            height={bottom - HEAD_PX}
          />
        ))}
        {marked !== null && (
          <rect
            class="marked"
            x={x(Math.min(...marked))}
            y={HEAD_PX}
            width={Math.abs(x(marked[1]) - x(marked[0]))}
            height={bottom - HEAD_PX}
          />
        )}
      </g>
      {bands.map((band, index) => (
        <g key={band.id} data-band={band.id}>
          <path class="grid" d={`M${LEFT},${HEAD_PX + index * BAND_PX}H${rightPx}`} />
          <BandLines band={band} span={span} x={x} top={HEAD_PX + index * BAND_PX} clipId={clipId} />
        </g>
      ))}
      <g>
        {shown.map(({ number, startS, endS, isOut }) => {
          const [left, right] = [Math.max(LEFT, x(startS)), Math.min(rightPx, x(endS))];
          if (right - left < NUMBER_ROOM_PX) return null;
          return (
            <text key={number} class="axis-text" x={(left + right) / 2} y={HEAD_PX - 8} text-anchor="middle">
              {isOut ? `(${number})` : number}
            </text>
          );
        })}
        {markedS.map((atS, index) =>
          atS === null || atS < fromS || atS > toS ? null : (
            <g key={`${index} ${atS}`}>
              <path class="mark" d={`M${x(atS)},${HEAD_PX}V${bottom}`} />
              <text x={x(atS) + 4} y={bottom - 6} font-weight="600">
                {index + 1}
              </text>
            </g>
          ),
        )}
        {(badLines ?? [])
          .filter(({ elapsedS }) => elapsedS >= fromS && elapsedS <= toS)
          .map(({ elapsedS }) => (
            <path key={elapsedS} class="bad-line" d={`M${x(elapsedS)},${bottom + 4}v${BAD_PX - 10}`} />
          ))}
        {badLines !== null && (
          <text class="axis-text" x={LEFT - 8} y={bottom + 18} text-anchor="end">
            bad
          </text>
        )}
        <path class="frame" d={`M${LEFT},${HEAD_PX}V${bottom + BAD_PX}H${rightPx}`} />
        {ticks.map((tick) => (
          <g key={tick}>
            <path class="frame" d={`M${x(tick)},${bottom + BAD_PX}v5`} />
            <text class="axis-text" x={x(tick)} y={bottom + BAD_PX + 20} text-anchor="middle">
              {printFixed(tick, decimals)}
            </text>
          </g>
        ))}
        <text class="axis-text" x={rightPx} y={heightPx - 2} text-anchor="end">
          time [s]
        </text>
      </g>
    </svg>
  );
}
