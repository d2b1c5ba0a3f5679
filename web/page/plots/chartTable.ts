import type { PlotTable } from './plotTable.ts';
import type { ChartSeries } from './shapes.ts';

type Row = PlotTable['rows'][number];

/** Upright bars and bands by their x, so that each point finds how far it may be off. */
function edgesOf(bars: ChartSeries['band']): ReadonlyMap<number, readonly [number, number]> {
  return new Map(bars.map(({ x, low, high }) => [x, [low, high]]));
}

function rowsOf({ label, line, band, points, openPoints, bars = [] }: ChartSeries): readonly Row[] {
  const [pointEdges, lineEdges] = [edgesOf(bars), edgesOf(band)];
  const rows = (what: string, drawn: ChartSeries['points'], edges: typeof pointEdges): readonly Row[] =>
    drawn.map(([x, y]) => [label, what, x, y, edges.get(x)?.[0] ?? null, edges.get(x)?.[1] ?? null]);
  return [
    ...rows('point', points, pointEdges),
    ...rows('open point', openPoints, pointEdges),
    ...rows('line', line, lineEdges),
  ];
}

/** A chart's series as numbers, in the units of its axes: points before lines; edges where bars or a band are drawn. */
export function chartTable(series: readonly ChartSeries[], xLabel: string, yLabel: string): PlotTable {
  const rows = series.flatMap(rowsOf);
  const hasEdges = rows.some((row) => row[4] !== null);
  const columns = ['series', 'drawn as', xLabel, yLabel, ...(hasEdges ? ['lower edge', 'upper edge'] : [])];
  return { columns, rows: rows.map((row) => row.slice(0, columns.length)) };
}
