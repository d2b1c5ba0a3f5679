import { printRpm } from '../../../../analysis/formatStated.ts';
import type { DrySeries } from '../../../../analysis/resultSchema/drySeriesSchema.ts';
import type { DryTogether } from '../../../../analysis/resultSchema/dryTogetherSchema.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';

function measuredSeries(series: DrySeries | null): readonly ChartSeries[] {
  if (series === null) return [];
  const { staticLiftM, starts } = series;
  const points = starts.flatMap(({ primingTimeS }): Point[] =>
    primingTimeS === null ? [] : [[staticLiftM, primingTimeS.value]],
  );
  return [{ label: 'measured', style: seriesStyle(0), line: [], band: [], points, openPoints: [] }];
}

/** Time to delivery against lift, on the bench's own pipe made longer or shorter; where it never comes the curve ends. */
export function TimeAgainstLift(of: { readonly together: DryTogether; readonly series: DrySeries | null }) {
  const { timeAgainstLift, timeSpeedRevPerS } = of.together;
  if (timeSpeedRevPerS === null || timeAgainstLift.length === 0) return null;
  const model: ChartSeries = {
    label: 'by the model',
    style: seriesStyle(1),
    line: timeAgainstLift.flatMap(({ liftM, timeS }): Point[] => (timeS.value === null ? [] : [[liftM, timeS.value]])),
    band: timeAgainstLift.flatMap(({ liftM, timeS: { lower, upper } }) =>
      lower === null || upper === null ? [] : [{ x: liftM, low: lower, high: upper }],
    ),
    points: [],
    openPoints: [],
  };
  return (
    <Chart
      title="Priming time against lift"
      description={`Time from motor start to delivery over lift, at ${printRpm(timeSpeedRevPerS)} revolutions a minute, by the fitted model with its band of 95 %, and as measured.`}
      note="The bench's own suction pipe, made higher or less high. Shaded: 95 %."
      xLabel="lift [m]"
      yLabel={`time at ${printRpm(timeSpeedRevPerS)} r/min [s]`}
      series={[...measuredSeries(of.series), model]}
      yIncludes={[0]}
    />
  );
}
