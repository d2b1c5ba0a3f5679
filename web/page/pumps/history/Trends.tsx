import { printedUnit } from '../../../../analysis/formatStated.ts';
import type { Stated } from '../../../../analysis/uncertainty/stated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { HistoryRun } from '../../../api.ts';
import { Chart } from '../../plots/Chart.tsx';
import { seriesStyle } from '../../plots/palette.ts';
import { address } from '../../shell/route.ts';
import { wallTime } from '../../words/moments.ts';
import { StatedValue } from '../../words/StatedValue.tsx';
import { unitSystem } from '../../words/unitSystem.ts';

type Trend = {
  readonly title: string;
  readonly of: (run: HistoryRun) => Stated | null;
  readonly symbols: Readonly<Record<'metric' | 'US', string>>;
};

const TRENDS: readonly Trend[] = [
  {
    title: 'Derived capacity',
    of: (run) => run.derivedCapacityM3PerRev,
    symbols: { metric: 'cm3/rev', US: 'in3/rev' },
  },
  { title: 'Slip at the duty', of: (run) => run.slipAtDutyM3PerS, symbols: { metric: 'l/min', US: 'US gal/min' } },
  { title: 'Priming time', of: (run) => run.primingTimeS, symbols: { metric: 's', US: 's' } },
];

function TrendOf({ trend, runs }: { readonly trend: Trend; readonly runs: readonly HistoryRun[] }) {
  const symbol = trend.symbols[unitSystem.value];
  const inUnit = (si: number): number => differenceFrom(si, unitOf(symbol));
  const told = runs.flatMap((run) => {
    const stated = trend.of(run);
    return stated === null ? [] : [{ run, stated }];
  });
  if (told.length === 0) return null;
  const [only] = told;
  if (told.length === 1 && only !== undefined) {
    return (
      <p>
        {trend.title}, one run so far: <StatedValue stated={only.stated} unitSymbol={symbol} hasUnit={true} />
      </p>
    );
  }
  const bars = told.map(({ stated }, index) => ({
    x: index + 1,
    low: inUnit(stated.value - stated.expandedUncertainty),
    high: inUnit(stated.value + stated.expandedUncertainty),
  }));
  const points = told.map(({ stated }, index) => [index + 1, inUnit(stated.value)] as const);
  return (
    <div>
      <Chart
        title={trend.title}
        description={`${trend.title} of ${told.length} runs, oldest first; the same numbers stand in the table below`}
        xLabel="run, oldest first"
        yLabel={`[${printedUnit(symbol)}]`}
        xRange={[0.5, told.length + 0.5]}
        series={[{ label: trend.title, style: seriesStyle(0), line: points, band: bars, points, openPoints: [], bars }]}
      />
      <details>
        <summary>{trend.title} as numbers</summary>
        <table>
          <caption>± is the expanded uncertainty for 95 %; bars and band show the same.</caption>
          <thead>
            <tr>
              <th scope="col" class="number">
                no.
              </th>
              <th scope="col">run</th>
              <th scope="col" class="number">
                {printedUnit(symbol)}
              </th>
            </tr>
          </thead>
          <tbody>
            {told.map(({ run, stated }, index) => (
              <tr key={run.id}>
                <td class="number">{index + 1}</td>
                <th scope="row">
                  <a href={address.run(run.id)}>{wallTime(run.startedAtUtc)}</a>, {run.label}
                </th>
                <td class="number">
                  <StatedValue stated={stated} unitSymbol={symbol} />
                </td>
              </tr>
            ))}
          </tbody>
        </table>
      </details>
    </div>
  );
}

/** How a pump fares from run to run, each value with what it may be off. */
export function Trends({ runs }: { readonly runs: readonly HistoryRun[] }) {
  const oldestFirst = runs.toReversed();
  const isAny = TRENDS.some(({ of }) => oldestFirst.some((run) => of(run) !== null));
  if (!isAny)
    return <p class="faint">Once runs are analysed, capacity, slip and priming time stand here run by run.</p>;
  return (
    <div class="charts">
      {TRENDS.map((trend) => (
        <TrendOf key={trend.title} trend={trend} runs={oldestFirst} />
      ))}
    </div>
  );
}
