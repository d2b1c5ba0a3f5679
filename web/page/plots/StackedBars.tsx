import { useId, useRef } from 'preact/hooks';
import { ChartAxes } from './ChartAxes.tsx';
import { Marker } from './Marker.tsx';
import { niceRange } from './niceTicks.ts';
import { PlotTools } from './PlotTools.tsx';
import { seriesStyle } from './palette.ts';
import type { PlotTable } from './plotTable.ts';
import type { Bar } from './shapes.ts';
import { useWidth } from './useWidth.ts';

/** A column of parts that add up, and a measured value beside them. */
export type StackedColumn = {
  readonly number: number;
  readonly parts: readonly { readonly name: string; readonly value: number }[];
  readonly measured: { readonly value: number } & Omit<Bar, 'x'>;
};

const MARGIN = { left: 56, right: 16, top: 32, bottom: 48 };
const WIDTH_SHARE = 0.56;

/** Each part has a hatching of its own besides its colour, so that grey tells them apart. */
const HATCHINGS = ['', 'M0,6L6,0', 'M0,0L6,6', 'M0,3H6', 'M3,0V6'];

function Hatching({ id, part }: { readonly id: string; readonly part: number }) {
  const { color } = seriesStyle(part);
  return (
    <pattern id={`${id}-${part}`} width="6" height="6" patternUnits="userSpaceOnUse">
      <rect width="6" height="6" fill={color} opacity={part % HATCHINGS.length === 0 ? 0.6 : 0.25} />
      <path d={HATCHINGS[part % HATCHINGS.length]} stroke={color} stroke-width="1.5" />
    </pattern>
  );
}

/** Parts that add up to what is expected, hold by hold, with what was measured beside them. */
export function StackedBars(chart: {
  readonly title: string;
  readonly description: string;
  readonly xLabel: string;
  readonly yLabel: string;
  readonly measuredLabel: string;
  readonly names: readonly string[];
  readonly columns: readonly StackedColumn[];
  readonly note: string;
}) {
  const { names, columns } = chart;
  const { ref, widthPx } = useWidth();
  const figure = useRef<HTMLElement>(null);
  const id = useId();
  const heightPx = Math.round(Math.min(400, Math.max(256, widthPx * 0.5)));
  const tops = columns.flatMap(({ parts, measured }) => [
    parts.reduce((sum, { value }) => sum + value, 0),
    measured.low,
    measured.high,
  ]);
  const [yMin, yMax] = niceRange(Math.min(0, ...tops), Math.max(0, ...tops), 5);
  const low = Math.min(...tops) >= 0 ? 0 : yMin;
  const right = widthPx - MARGIN.right;
  const bottom = heightPx - MARGIN.bottom;
  const last = columns.reduce((most, { number }) => Math.max(most, number), 0) + 1;
  const x = (value: number): number => MARGIN.left + (value / last) * (right - MARGIN.left);
  const y = (value: number): number => bottom - ((value - low) / (yMax - low)) * (bottom - MARGIN.top);
  const barPx = (WIDTH_SHARE * (right - MARGIN.left)) / last;
  const table = (): PlotTable => ({
    columns: [chart.xLabel, ...names.map((name) => `${name}, ${chart.yLabel}`), chart.measuredLabel, 'lower', 'upper'],
    rows: columns.map(({ number, parts, measured }) => [
      number,
      ...names.map((name) => parts.find((part) => part.name === name)?.value ?? null),
      measured.value,
      measured.low,
      measured.high,
    ]),
  });
  return (
    <figure class="chart" ref={figure}>
      <figcaption>{chart.title}</figcaption>
      <div ref={ref} data-drawing>
        {widthPx > 0 && (
          <svg width={widthPx} height={heightPx} role="img" aria-label={chart.description}>
            <defs>
              {names.map((name, part) => (
                <Hatching key={name} id={id} part={part} />
              ))}
            </defs>
            <ChartAxes
              x={{ min: 0, max: last, label: chart.xLabel, place: x }}
              y={{ min: low, max: yMax, label: chart.yLabel, place: y }}
              frame={{ left: MARGIN.left, right, top: MARGIN.top, bottom }}
            />
            {columns.map(({ number, parts, measured }) => {
              let from = 0;
              return (
                <g key={number}>
                  {parts.map(({ name, value }) => {
                    const [below, above] = [from, from + value];
                    from = above;
                    return (
                      <rect
                        key={name}
                        x={x(number) - barPx / 2}
                        y={y(above)}
                        width={barPx}
                        height={Math.max(0, y(below) - y(above))}
                        fill={`url(#${id}-${names.indexOf(name)})`}
                        stroke={seriesStyle(names.indexOf(name)).color}
                      />
                    );
                  })}
                  <path class="frame" d={`M${x(number)},${y(measured.low)}V${y(measured.high)}`} />
                  <Marker shape="circle" color="var(--ink)" isOpen={true} x={x(number)} y={y(measured.value)} />
                </g>
              );
            })}
          </svg>
        )}
      </div>
      <p class="chart-note">{chart.note}</p>
      <ul class="legend">
        <li>
          <svg width="36" height="16" aria-hidden="true">
            <Marker shape="circle" color="var(--ink)" isOpen={true} x={18} y={8} />
          </svg>
          {chart.measuredLabel}
        </li>
        {names.map((name, part) => (
          <li key={name}>
            <svg width="36" height="16" aria-hidden="true">
              <Hatching id={`${id}-legend`} part={part} />
              <rect x="2" width="32" height="16" fill={`url(#${id}-legend-${part})`} stroke={seriesStyle(part).color} />
            </svg>
            {name}
          </li>
        ))}
      </ul>
      <PlotTools title={chart.title} table={table} figure={figure} />
    </figure>
  );
}
