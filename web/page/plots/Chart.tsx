import type { ComponentChildren } from 'preact';
import { useRef } from 'preact/hooks';
import { ChartAxes } from './ChartAxes.tsx';
import { chartTable } from './chartTable.ts';
import { Marker } from './Marker.tsx';
import { niceRange } from './niceTicks.ts';
import { PlotTools } from './PlotTools.tsx';
import type { ChartSeries, Point } from './shapes.ts';
import { useWidth } from './useWidth.ts';

export type { ChartSeries } from './shapes.ts';

/** A value that the chart rules through, with its words. */
export type ChartRule = { readonly at: number; readonly words: string };

export type ChartProps = {
  readonly title: string;
  /** Under the drawing: how it is read. */
  readonly note?: ComponentChildren;
  /** For those who hear the page: what is drawn, in a sentence. */
  readonly description: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly series: readonly ChartSeries[];
  readonly xRules?: readonly ChartRule[];
  readonly yRules?: readonly ChartRule[];
  /** Values that the scales must reach besides the drawn ones. */
  readonly yIncludes?: readonly number[];
  readonly xRange?: readonly [number, number];
};

const MARGIN = { left: 56, right: 16, top: 32, bottom: 48 };

/** More ruled values than these would have their words over the lines: they are numbered. */
const WITHOUT_KEY = 2;
/** A row of numbers above the frame, and how close two of them may stand [CSS px]. */
const NUMBERS_PX = 20;
const BESIDE_PX = 12;

function pathOf(points: readonly Point[], x: (value: number) => number, y: (value: number) => number): string {
  return points.map(([px, py], index) => `${index === 0 ? 'M' : 'L'}${x(px).toFixed(1)},${y(py).toFixed(1)}`).join('');
}

function extent(values: readonly number[]): readonly [number, number] {
  return values.length === 0
    ? [0, 1]
    : [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
}

/** A scale for these values; one of nothing below zero does not go there. */
function rangeOf(values: readonly number[], count: number): readonly [number, number] {
  const [low, high] = extent(values);
  const [from, to] = niceRange(low, high, count);
  return [low >= 0 ? Math.max(0, from) : from, to];
}

/** Places of the numbers above ruled values: each above its rule, or as near as those before it allow. */
function numberPlaces(xs: readonly number[]): readonly number[] {
  let last = Number.NEGATIVE_INFINITY;
  return xs.map((x) => {
    last = Math.max(x, last + BESIDE_PX);
    return last;
  });
}

/** A rule's number as it stands above the drawing, for the key. */
function RuleSwatch({ number }: { readonly number: number }) {
  return (
    <svg width="12" height="16" aria-hidden="true">
      <text x="6" y="13" text-anchor="middle" font-weight="600">
        {number}
      </text>
    </svg>
  );
}

function Swatch({ style, line, points, openPoints }: ChartSeries) {
  return (
    <svg width="36" height="16" aria-hidden="true">
      {line.length > 0 && (
        <path d="M0,8H36" stroke={style.color} stroke-width="2" stroke-dasharray={style.dash.join(' ')} />
      )}
      {points.length + openPoints.length > 0 && (
        <Marker shape={style.marker} color={style.color} isOpen={points.length === 0} x={18} y={8} />
      )}
    </svg>
  );
}

/** A drawing in thin line: lines with bands, points, and ruled values. */
export function Chart(chart: ChartProps) {
  const { ref, widthPx } = useWidth();
  const figure = useRef<HTMLElement>(null);
  const heightPx = Math.round(Math.min(400, Math.max(256, widthPx * 0.62)));
  const { series, xRules = [], yRules = [] } = chart;
  const listed = series.filter(({ isListed = true }) => isListed);
  const drawn = series.flatMap(({ line, points, openPoints }) => [...line, ...points, ...openPoints]);
  const bandEdges = series.flatMap(({ band, bars = [] }) => [...band, ...bars].flatMap(({ low, high }) => [low, high]));
  const [xMin, xMax] =
    chart.xRange ??
    rangeOf(
      drawn.map(([px]) => px),
      6,
    );
  const ruled = [...yRules.map(({ at }) => at), ...(chart.yIncludes ?? [])];
  const [yMin, yMax] = rangeOf([...drawn.map(([, py]) => py), ...bandEdges, ...ruled], 5);
  const right = widthPx - MARGIN.right;
  const bottom = heightPx - MARGIN.bottom;
  const isKeyed = xRules.length > WITHOUT_KEY;
  const top = MARGIN.top + (isKeyed ? NUMBERS_PX : 0);
  const x = (value: number): number => MARGIN.left + ((value - xMin) / (xMax - xMin)) * (right - MARGIN.left);
  const y = (value: number): number => bottom - ((value - yMin) / (yMax - yMin)) * (bottom - top);
  const numbersAt = numberPlaces(xRules.map(({ at }) => x(at)));

  return (
    <figure class="chart" ref={figure}>
      <figcaption>{chart.title}</figcaption>
      <div ref={ref} data-drawing>
        {widthPx > 0 && (
          <svg width={widthPx} height={heightPx} role="img" aria-label={chart.description}>
            <ChartAxes
              x={{ min: xMin, max: xMax, label: chart.xLabel, place: x }}
              y={{ min: yMin, max: yMax, label: chart.yLabel, place: y }}
              frame={{ left: MARGIN.left, right, top, bottom }}
            />
            {series.map(({ label, style, band }) =>
              band.length < 2 ? null : (
                <path
                  key={label}
                  d={`${pathOf(
                    [
                      ...band.map(({ x: at, high }): Point => [at, high]),
                      ...band.toReversed().map(({ x: at, low }): Point => [at, low]),
                    ],
                    x,
                    y,
                  )}Z`}
                  fill={style.color}
                  opacity="0.16"
                />
              ),
            )}
            {series.map(({ label, style, line, points, openPoints, bars = [] }) => (
              <g key={label}>
                <path
                  d={bars
                    .map(({ x: at, low, high }) => `M${x(at).toFixed(1)},${y(low).toFixed(1)}V${y(high).toFixed(1)}`)
                    .join('')}
                  stroke={style.color}
                  stroke-width="1.25"
                />
                <path
                  d={pathOf(line, x, y)}
                  fill="none"
                  stroke={style.color}
                  stroke-width="1.75"
                  stroke-dasharray={style.dash.join(' ')}
                />
                {openPoints.map(([px, py]) => (
                  <Marker
                    key={`o${px} ${py}`}
                    shape={style.marker}
                    color={style.color}
                    isOpen={true}
                    x={x(px)}
                    y={y(py)}
                  />
                ))}
                {points.map(([px, py]) => (
                  <Marker
                    key={`${px} ${py}`}
                    shape={style.marker}
                    color={style.color}
                    isOpen={false}
                    x={x(px)}
                    y={y(py)}
                  />
                ))}
              </g>
            ))}
            {yRules.map(({ at, words }) => (
              <g key={words}>
                <path class="rule" d={`M${MARGIN.left},${y(at)}H${right}`} />
                <text x={right - 4} y={y(at) - 6} text-anchor="end">
                  {words}
                </text>
              </g>
            ))}
            {xRules.map(({ at, words }, index) => {
              const isRightHalf = at > (xMin + xMax) / 2;
              return (
                <g key={words}>
                  <path class="rule" d={`M${x(at)},${top}V${bottom}`} />
                  {isKeyed ? (
                    <text x={numbersAt[index]} y={top - 6} text-anchor="middle" font-weight="600">
                      {index + 1}
                    </text>
                  ) : (
                    <text
                      x={x(at) + (isRightHalf ? -6 : 6)}
                      y={top + 16 + 18 * index}
                      text-anchor={isRightHalf ? 'end' : 'start'}
                    >
                      {words}
                    </text>
                  )}
                </g>
              );
            })}
          </svg>
        )}
      </div>
      {chart.note !== undefined && <p class="chart-note">{chart.note}</p>}
      {series.length > 1 && (
        <ul class="legend">
          {listed.map((each) => (
            <li key={each.label}>
              <Swatch {...each} /> {each.label}
            </li>
          ))}
        </ul>
      )}
      {isKeyed && (
        <ol class="legend">
          {xRules.map(({ words }, index) => (
            <li key={words}>
              <RuleSwatch number={index + 1} /> {words}
            </li>
          ))}
        </ol>
      )}
      <PlotTools title={chart.title} table={() => chartTable(series, chart.xLabel, chart.yLabel)} figure={figure} />
    </figure>
  );
}
