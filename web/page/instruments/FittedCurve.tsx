import { type CurvePoints, curveAt, fitCurve } from '../../../analysis/calibration/fitCurve.ts';
import { Chart } from '../plots/Chart.tsx';
import { seriesStyle } from '../plots/palette.ts';

const STEPS = 40;

function digits(value: number): string {
  return String(Number(value.toPrecision(5))).replace('-', '−');
}

/** The line through the points of a calibration, and what each point is off it. */
export function FittedCurve({ curve, unit }: { readonly curve: CurvePoints; readonly unit: string }) {
  const fit = fitCurve(curve);
  if (!fit.ok) {
    return (
      <p class="look-here">
        <span aria-hidden="true">▲</span> {fit.reason.text}
      </p>
    );
  }
  const { residuals, residualStandardDeviation, degreesOfFreedom, centreRaw, halfSpanRaw } = fit.value;
  const line = Array.from({ length: STEPS + 1 }, (_, step) => {
    const raw = centreRaw + halfSpanRaw * ((2 * step) / STEPS - 1);
    return [raw, curveAt(fit.value, raw)] as const;
  });
  const off = curve.points.map(({ raw }, index) => [raw, residuals[index] ?? Number.NaN] as const);
  const words = `points scatter by ${digits(residualStandardDeviation)} ${unit} about it, with ${degreesOfFreedom} to spare`;
  return (
    <div data-testid="fitted-curve">
      <p>
        A curve of degree {curve.degree} through {curve.points.length} points; {words}.
      </p>
      <div class="charts">
        <Chart
          title="Reference against raw value"
          description={`The fitted curve with its points; ${words}`}
          xLabel="raw, as it comes over the line"
          yLabel={`reference [${unit}]`}
          series={[
            {
              label: 'points and curve',
              style: seriesStyle(0),
              line,
              band: [],
              points: curve.points.map(({ raw, reference }) => [raw, reference] as const),
              openPoints: [],
            },
          ]}
        />
        <Chart
          title="What each point is off the curve"
          description={`Residuals; ${words}`}
          xLabel="raw, as it comes over the line"
          yLabel={`reference less curve [${unit}]`}
          yRules={[{ at: 0, words: '' }]}
          series={[{ label: 'residual', style: seriesStyle(1), line: [], band: [], points: off, openPoints: [] }]}
        />
      </div>
      <details>
        <summary>Points and residuals as numbers</summary>
        <table>
          <thead>
            <tr>
              <th scope="col" class="number">
                raw
              </th>
              <th scope="col" class="number">
                reference [{unit}]
              </th>
              <th scope="col" class="number">
                off the curve [{unit}]
              </th>
            </tr>
          </thead>
          <tbody>
            {curve.points.map(({ raw, reference }, index) => (
              <tr key={`${raw} ${reference}`}>
                <td class="number">{digits(raw)}</td>
                <td class="number">{digits(reference)}</td>
                <td class="number">{digits(residuals[index] ?? Number.NaN)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}
