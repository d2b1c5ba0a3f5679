import { useId, useRef } from 'preact/hooks';
import { ChartAxes } from './ChartAxes.tsx';
import { Marker } from './Marker.tsx';
import { PlotTools } from './PlotTools.tsx';
import type { PlotTable } from './plotTable.ts';
import type { Contour, Point, Stretch } from './shapes.ts';
import { useWidth } from './useWidth.ts';

type MapPoint = { readonly at: Point; readonly isOpen: boolean };

export type MapChartProps = {
  readonly title: string;
  readonly description: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly xRange: readonly [number, number];
  readonly yRange: readonly [number, number];
  readonly contours: readonly Contour[];
  /** Where the map speaks beyond what was measured. */
  readonly hatched: readonly Stretch[];
  readonly points: readonly MapPoint[];
  readonly marks: readonly { readonly at: Point; readonly words: string }[];
  readonly table: () => PlotTable;
  readonly chosen: Point;
  readonly onChoose: (at: Point) => void;
};

const MARGIN = { left: 56, right: 24, top: 32, bottom: 48 };
const INK = 'var(--ink)';

/** Where along a line its label stands: towards the end that is furthest from the origin, where lines stand apart. */
const LABEL_AT_SHARE = 0.85;

function labelled(lines: readonly (readonly Point[])[], order: number): Point | null {
  const longest = lines.reduce<readonly Point[]>((best, line) => (line.length > best.length ? line : best), []);
  const [first, last] = [longest[0], longest.at(-1)];
  if (first === undefined || last === undefined) return null;
  const outwards = first[0] + first[1] > last[0] + last[1] ? [...longest].reverse() : longest;
  const share = LABEL_AT_SHARE - 0.2 * (order % 2);
  return outwards[Math.round(share * (outwards.length - 1))] ?? null;
}

/** A value over two others, as lines on which it is the same; a point in it can be chosen. */
export function MapChart(chart: MapChartProps) {
  const { ref, widthPx } = useWidth();
  const figure = useRef<HTMLElement>(null);
  const hatchId = useId();
  const heightPx = Math.round(Math.min(440, Math.max(296, widthPx * 0.68)));
  const [xMin, xMax] = chart.xRange;
  const [yMin, yMax] = chart.yRange;
  const right = widthPx - MARGIN.right;
  const bottom = heightPx - MARGIN.bottom;
  const x = (value: number): number => MARGIN.left + ((value - xMin) / (xMax - xMin)) * (right - MARGIN.left);
  const y = (value: number): number => bottom - ((value - yMin) / (yMax - yMin)) * (bottom - MARGIN.top);
  const choose = (event: PointerEvent): void => {
    if (!(event.currentTarget instanceof Element)) return;
    const box = event.currentTarget.getBoundingClientRect();
    const across = (event.clientX - box.left) / box.width;
    const up = (box.bottom - event.clientY) / box.height;
    chart.onChoose([xMin + across * (xMax - xMin), yMin + up * (yMax - yMin)]);
  };
  const [chosenX, chosenY] = chart.chosen;

  return (
    <figure class="chart" ref={figure}>
      <figcaption>{chart.title}</figcaption>
      <div ref={ref} data-drawing>
        {widthPx > 0 && (
          <svg width={widthPx} height={heightPx} role="img" aria-label={chart.description}>
            <defs>
              <pattern id={hatchId} width="7" height="7" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
                <path class="hatch" d="M0,0V7" />
              </pattern>
            </defs>
            {chart.hatched.map(({ fromX, toX, fromY, toY }) => (
              <rect
                key={`${fromX} ${fromY}`}
                x={x(fromX)}
                y={y(toY)}
                width={x(toX) - x(fromX)}
                height={y(fromY) - y(toY)}
                fill={`url(#${hatchId})`}
              />
            ))}
            <ChartAxes
              x={{ min: xMin, max: xMax, label: chart.xLabel, place: x }}
              y={{ min: yMin, max: yMax, label: chart.yLabel, place: y }}
              frame={{ left: MARGIN.left, right, top: MARGIN.top, bottom }}
            />
            {chart.contours.map(({ label, isMain, lines }) => (
              <path
                key={label}
                class={isMain ? 'contour main' : 'contour'}
                d={lines
                  .map((line) =>
                    line.map(([px, py], i) => `${i === 0 ? 'M' : 'L'}${x(px).toFixed(1)},${y(py).toFixed(1)}`).join(''),
                  )
                  .join('')}
              />
            ))}
            {chart.points.map(({ at: [px, py], isOpen }) => (
              <Marker key={`${px} ${py}`} shape="circle" color={INK} isOpen={isOpen} x={x(px)} y={y(py)} />
            ))}
            {chart.contours.map(({ label, lines }, order) => {
              const at = labelled(
                lines.map((line) => line.map(([px, py]): Point => [x(px), -y(py)])),
                order,
              );
              return at === null ? null : (
                <text key={label} x={at[0]} y={-at[1] + 5} text-anchor="middle">
                  {label}
                </text>
              );
            })}
            {chart.marks.map(({ at: [px, py], words }) => (
              <g key={words}>
                <Marker shape="diamond" color="var(--accent)" isOpen={true} x={x(px)} y={y(py)} />
                <text
                  x={x(px) + (px > xMin + 0.8 * (xMax - xMin) ? -10 : 10)}
                  y={y(py) - 8}
                  text-anchor={px > xMin + 0.8 * (xMax - xMin) ? 'end' : 'start'}
                >
                  {words}
                </text>
              </g>
            ))}
            <path class="rule" d={`M${MARGIN.left},${y(chosenY)}H${right}M${x(chosenX)},${MARGIN.top}V${bottom}`} />
            <rect
              class="touch"
              x={MARGIN.left}
              y={MARGIN.top}
              width={right - MARGIN.left}
              height={bottom - MARGIN.top}
              onPointerDown={choose}
              onPointerMove={choose}
            />
          </svg>
        )}
      </div>
      <PlotTools title={chart.title} table={chart.table} figure={figure} />
    </figure>
  );
}
