import { printRpm } from '../../../../analysis/formatStated.ts';
import type { DryLiftResult } from '../../../../analysis/result.ts';
import { Chart, type ChartRule, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';
import { bar, type DrawnLimit, type DrawnStart } from './drawnStart.ts';

function modelSeries({ estimate }: DryLiftResult): readonly ChartSeries[] {
  if (!estimate.ok) return [];
  return estimate.value.starts.map(({ course }, index, { length }): ChartSeries => {
    const line = course.elapsedS.map((atS, row): Point => [atS, bar(course.suctionPressurePa[row] ?? Number.NaN)]);
    const label = length === 1 ? 'fitted model' : `fitted model, start ${index + 1}`;
    return { label, style: seriesStyle(1), line, band: [], points: [], openPoints: [] };
  });
}

/** Where a blanked suction comes to rest at each of its speeds. */
function restRules({ estimate }: DryLiftResult): readonly ChartRule[] {
  if (!estimate.ok) return [];
  return estimate.value.limits.map(({ speedRevPerS, blankOffPressurePa }) => ({
    at: bar(blankOffPressurePa.value),
    words: `comes to rest at ${printRpm(speedRevPerS)} r/min`,
  }));
}

function drawnLimitRules(limit: DrawnLimit | null): readonly ChartRule[] {
  return limit?.isInSight === true ? [{ at: bar(limit.blankOffPa), words: 'limit, estimated' }] : [];
}

/** Suction pressure against time, measured and by the fitted model, with what the standing column asks for. */
export function StartChart(shown: {
  readonly result: DryLiftResult;
  readonly drawn: DrawnStart;
  readonly limit: DrawnLimit | null;
  readonly sentence: string;
}) {
  const { result, drawn, limit, sentence } = shown;
  const isBlanked = result.events === null;
  const line = drawn.suctionPa.map(([atS, pressurePa]): Point => [atS, bar(pressurePa)]);
  const limitRules = isBlanked ? restRules(result) : drawnLimitRules(limit);
  const columnRules: readonly ChartRule[] = isBlanked
    ? []
    : [{ at: bar(result.columnPressurePa), words: 'standing column' }];
  return (
    <Chart
      title="Suction pressure while the pump is dry"
      description={`Suction pressure over time, measured and by the fitted model. ${sentence}`}
      xLabel="time [s]"
      yLabel="suction pressure [bar(a)]"
      series={[
        { label: 'measured', style: seriesStyle(0), line, band: [], points: [], openPoints: [] },
        ...modelSeries(result),
      ]}
      xRules={drawn.rules}
      yRules={[...columnRules, ...limitRules]}
      yIncludes={[bar(result.barometerPa)]}
      xRange={drawn.span}
      note={!isBlanked && limit?.isInSight === false ? limit.words : undefined}
    />
  );
}
