import type { DrySeries } from '../../../../analysis/resultSchema/drySeriesSchema.ts';
import type { DryTogether } from '../../../../analysis/resultSchema/dryTogetherSchema.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';

function rpm(speedRevPerS: number): number {
  return differenceFrom(speedRevPerS, unitOf('r/min'));
}

/** Where oil came, and where it did not, apart from the limit that is only estimated. */
function provenSeries(series: DrySeries | null): readonly ChartSeries[] {
  if (series === null) return [];
  const at: Point = [rpm(series.speedRevPerS), series.staticLiftM];
  const hasPrimed = series.primedStarts > 0;
  return [
    {
      label: hasPrimed ? 'lift that is proven' : 'lift from which no oil came',
      style: seriesStyle(0),
      line: [],
      band: [],
      points: hasPrimed ? [at] : [],
      openPoints: hasPrimed ? [] : [at],
    },
  ];
}

/** Proven lift and estimated limit against speed. */
export function LimitAgainstSpeed(of: { readonly together: DryTogether; readonly series: DrySeries | null }) {
  const { limitAgainstSpeed, limits, wetness } = of.together;
  const estimated: ChartSeries = {
    label: `limit, estimated, in class ${wetness}`,
    style: seriesStyle(1),
    line: limitAgainstSpeed.map(({ speedRevPerS, limitM }): Point => [rpm(speedRevPerS), limitM.value]),
    band: limitAgainstSpeed.map(({ speedRevPerS, limitM }) => ({
      x: rpm(speedRevPerS),
      low: limitM.lower,
      high: limitM.upper,
    })),
    points: [],
    openPoints: limits.map(({ speedRevPerS, limitM }): Point => [rpm(speedRevPerS), limitM.value]),
  };
  return (
    <Chart
      title="Lift against speed: proven, and the estimated limit"
      description="The estimated dry lift limit with its interval of 95 % over shaft speed, and the lift from which oil came."
      note="Open marks: speeds at which the pump was run. Shaded: 95 %."
      xLabel="speed [r/min]"
      yLabel="lift [m]"
      series={[...provenSeries(of.series), estimated]}
      yIncludes={[0]}
    />
  );
}
