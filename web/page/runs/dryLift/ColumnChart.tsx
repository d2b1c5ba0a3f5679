import type { DryLiftResult } from '../../../../analysis/result.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';
import { carriedM, type DrawnLimit, type DrawnStart } from './drawnStart.ts';

/** The column against time: by the model, and what the measured suction would carry at rest. */
export function ColumnChart(shown: {
  readonly result: DryLiftResult;
  readonly drawn: DrawnStart;
  readonly limit: DrawnLimit | null;
}) {
  const { result, drawn, limit } = shown;
  const start = result.estimate.ok ? result.estimate.value.starts[0] : undefined;
  const heights = start?.course.columnHeightM ?? null;
  if (start === undefined || heights === null) return null;
  const lastS = start.course.elapsedS.at(-1) ?? 0;
  const model: ChartSeries = {
    label: 'column, by the model',
    style: seriesStyle(1),
    line: start.course.elapsedS.map((atS, row): Point => [atS, heights[row] ?? Number.NaN]),
    band: [],
    points: [],
    openPoints: [],
  };
  const carried: ChartSeries = {
    label: 'column that the measured suction carries',
    style: seriesStyle(0),
    // Once oil flows, the suction carries its friction too.
    line: drawn.suctionPa
      .filter(([atS]) => atS <= lastS)
      .map(([atS, pressurePa]): Point => [atS, carriedM(pressurePa, result)]),
    band: [],
    points: [],
    openPoints: [],
  };
  return (
    <Chart
      title="Column of oil in the suction pipe"
      description="Height of the oil column over time, by the fitted model and as the measured suction would carry it at rest."
      xLabel="time [s]"
      yLabel="height over the oil [m]"
      series={[carried, model]}
      xRules={drawn.rules}
      yRules={[
        { at: result.staticLiftM, words: 'static lift' },
        ...(limit?.isInSight === true ? [{ at: limit.limitM, words: 'limit, estimated' }] : []),
      ]}
      yIncludes={[0]}
      xRange={drawn.span}
    />
  );
}
