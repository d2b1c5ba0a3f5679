import { printFixed } from '../../../analysis/formatStated.ts';
import type { SuctionResult } from '../../../analysis/result.ts';
import { differenceFrom, unitOf } from '../../../analysis/units.ts';
import type { RunView } from '../../api.ts';
import { Chart, type ChartRule } from '../plots/Chart.tsx';
import { seriesStyle } from '../plots/palette.ts';
import { Entry } from '../shell/Entry.tsx';
import { Wide } from '../shell/Wide.tsx';
import { StatedValue } from '../words/StatedValue.tsx';

const PERCENT = unitOf('%');
const BAR = unitOf('bar(a)');

type Suction = Extract<SuctionResult, { ok: true }>['value'];

function LossChart({ suction, barometerPa }: { readonly suction: Suction; readonly barometerPa: number }) {
  const drawn = suction.points.map(({ suctionPressurePa, lost }) => ({
    x: differenceFrom(barometerPa - suctionPressurePa.value, BAR),
    y: differenceFrom(lost.value, PERCENT),
    spread: differenceFrom(lost.expandedUncertainty, PERCENT),
  }));
  const xRules = suction.losses.flatMap((loss): ChartRule[] =>
    loss.reached
      ? [
          {
            at: differenceFrom(loss.vacuumPa.value, BAR),
            words: `${printFixed(differenceFrom(loss.lostShare, PERCENT), 0)} % lost`,
          },
        ]
      : [],
  );
  return (
    <Chart
      title="Flow lost against vacuum at the inlet"
      description={`Share of the flow that is lost against the vacuum at the inlet. ${suction.losses.map(({ text }) => text).join(' ')}`}
      xLabel="vacuum at the inlet [bar]"
      yLabel="flow lost [%]"
      series={[
        {
          label: 'holds',
          style: seriesStyle(0),
          line: drawn.map(({ x, y }) => [x, y] as const).sort(([a], [b]) => a - b),
          band: [],
          points: drawn.map(({ x, y }) => [x, y] as const),
          openPoints: [],
          bars: drawn.map(({ x, y, spread }) => ({ x, low: y - spread, high: y + spread })),
        },
      ]}
      xRules={xRules}
      note="Bars: expanded uncertainty for 95 %."
    />
  );
}

/** What a suction run yields: where 1 % and 5 % of the flow are lost. */
export function SuctionPassage({ view, result }: { readonly view: RunView; readonly result: SuctionResult }) {
  if (!result.ok) {
    return (
      <Entry head="Suction">
        <p class="look-here">{result.reason.text}</p>
      </Entry>
    );
  }
  const { points, losses, referenceHoldNumber } = result.value;
  return (
    <Entry head="Suction">
      <div data-testid="suction">
        {losses.map(({ text }) => (
          <p key={text} class="lead">
            {text}
          </p>
        ))}
        <LossChart suction={result.value} barometerPa={view.run.setUp.barometerPa.value} />
        <Wide label="holds of the suction run">
          <table>
            <caption>
              ± is the expanded uncertainty for 95 %; pressure is absolute. Loss is against hold {referenceHoldNumber}.
            </caption>
            <thead>
              <tr>
                <th scope="col">hold</th>
                <th scope="col" class="number">
                  at the inlet
                  <br />
                  bar(a)
                </th>
                <th scope="col" class="number">
                  flow
                  <br />
                  l/min
                </th>
                <th scope="col" class="number">
                  lost
                  <br />%
                </th>
              </tr>
            </thead>
            <tbody>
              {points.map(({ holdNumber, suctionPressurePa, flowM3PerS, lost }) => (
                <tr key={holdNumber}>
                  <th scope="row">{holdNumber}</th>
                  <td class="number">
                    <StatedValue stated={suctionPressurePa} unitSymbol="bar(a)" />
                  </td>
                  <td class="number">
                    <StatedValue stated={flowM3PerS} unitSymbol="l/min" />
                  </td>
                  <td class="number">
                    <StatedValue stated={lost} unitSymbol="%" />
                  </td>
                </tr>
              ))}
            </tbody>
          </table>
        </Wide>
      </div>
    </Entry>
  );
}
