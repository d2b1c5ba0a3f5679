import { dimensionlessCurve } from '../../../../analysis/efficiency/dimensionlessView.ts';
import type { Fitted } from '../../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import { Chart, type ChartSeries } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import type { Point } from '../../plots/shapes.ts';

/** Speed numbers of oil pumps are about this size [1]. */
const SCALE = 1e-6;
const STEPS = 64;

type View = Fitted['dimensionless'];
type ViewPoint = View['points'][number];

function percent(share: number): number {
  return differenceFrom(share, unitOf('%'));
}

function corrected({ speedNumber, correctedEfficiency }: ViewPoint): Point {
  return [speedNumber / SCALE, percent(correctedEfficiency)];
}

/** The curve between the smallest and the largest speed number, denser where it bends. */
function curveOf({ points, slipNumber }: View): readonly Point[] {
  const [first, last] = [points[0]?.speedNumber ?? 1, points.at(-1)?.speedNumber ?? 1];
  return Array.from({ length: STEPS + 1 }, (_, step): Point => {
    const speedNumber = first * (last / first) ** (step / STEPS);
    return [speedNumber / SCALE, percent(dimensionlessCurve(slipNumber, speedNumber))];
  });
}

function pointSeries(label: string, style: number, points: readonly Point[], isOpen: boolean): ChartSeries {
  return {
    label,
    style: seriesStyle(style),
    line: [],
    band: [],
    points: isOpen ? [] : points,
    openPoints: isOpen ? points : [],
  };
}

/** All holds on one curve: what leaves it is air, filling, the relief valve or an instrument. */
export function DimensionlessChart({ view }: { readonly view: View }) {
  if (view.points.length < 2) return null;
  const onCurve = view.points.filter(({ leavesCurve, isInFit }) => isInFit && !leavesCurve);
  const leaving = view.points.filter(({ leavesCurve }) => leavesCurve);
  const leavingNumbers = leaving
    .map(({ holdNumber }) => holdNumber)
    .sort((a, b) => a - b)
    .join(', ');
  const leftOut = view.points.filter(({ leavesCurve, isInFit }) => !isInFit && !leavesCurve);
  const series: readonly ChartSeries[] = [
    {
      ...pointSeries('corrected, on the curve', 0, onCurve.map(corrected), false),
      line: curveOf(view),
    },
    pointSeries(
      'as measured',
      1,
      view.points.map(
        ({ speedNumber, measuredEfficiency }): Point => [speedNumber / SCALE, percent(measuredEfficiency)],
      ),
      true,
    ),
    ...(leftOut.length === 0 ? [] : [pointSeries('left out of the fit', 2, leftOut.map(corrected), true)]),
    ...(leaving.length === 0
      ? []
      : [pointSeries(`leaves the curve: hold ${leavingNumbers}`, 4, leaving.map(corrected), false)]),
  ];
  return (
    <div>
      <Chart
        title="All holds on one curve"
        description="Volumetric efficiency against the speed number, viscosity times speed over pressure difference; measured and corrected points and the curve; the holds that leave it are named beside it"
        xLabel="µ n/Δp [10⁻⁶]"
        yLabel="efficiency [%]"
        series={series}
        note={
          <>
            Corrected: the fitted slip through openings and what is lost each turn given back. Then a sound pump's holds
            fall on 1 − (C<sub>l</sub>/V<sub>i</sub>)/(µ n/Δp). What leaves the curve is air, filling, the relief valve
            or an instrument.
          </>
        }
      />
      <p class={leaving.length > 0 ? 'look-here' : ''} data-testid="off-curve">
        {leaving.length > 0
          ? `Off the curve: hold ${leavingNumbers}.`
          : view.limit === null
            ? 'Too few holds to tell whether one leaves the curve.'
            : 'No hold leaves the curve.'}
      </p>
    </div>
  );
}
