import { printFixed } from '../../../analysis/formatStated.ts';
import type { DryLiftResult } from '../../../analysis/result.ts';
import { readingFrom, unitOf } from '../../../analysis/units.ts';
import type { RunReadings, RunView } from '../../api.ts';
import { Chart, type ChartRule } from '../plots/Chart.tsx';
import { seriesStyle } from '../plots/palette.ts';
import type { Point } from '../plots/shapes.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { primingSentence } from '../words/primingSentence.ts';
import { StatedValue } from '../words/StatedValue.tsx';

const BAR = unitOf('bar(a)');
/** Of a long run only the start is drawn here; all of it stands in the record [s]. */
const BEFORE_START_S = 3;
const AFTER_PRIMING_S = 5;

function bar(absolutePa: number): number {
  return readingFrom(absolutePa, BAR, 0);
}

type Events = { readonly rules: readonly ChartRule[]; readonly span: readonly [number, number] | null };

function eventsOf(result: DryLiftResult): Events {
  if (!result.priming.ok) return { rules: [], span: null };
  const priming = result.priming.value;
  const started = { at: priming.motorStartS, words: 'motor starts' };
  const fromS = Math.max(0, priming.motorStartS - BEFORE_START_S);
  if (!priming.primed) return { rules: [started], span: [fromS, priming.motorStartS + priming.watchedForS] };
  const arrived = priming.oilAtInletS === null ? [] : [{ at: priming.oilAtInletS, words: 'oil at the inlet' }];
  return {
    rules: [started, ...arrived, { at: priming.sustainedDeliveryS, words: 'delivers for good' }],
    span: [fromS, priming.sustainedDeliveryS + AFTER_PRIMING_S],
  };
}

function PrimingChart({ result, readings }: { readonly result: DryLiftResult; readonly readings: RunReadings }) {
  const suction = readings.channels.suctionPressure;
  if (suction === undefined) return <p>The bench has no suction pressure: the way up cannot be drawn.</p>;
  const { rules, span } = eventsOf(result);
  const lastS = readings.elapsedS.at(-1) ?? 1;
  const [fromS, toS] = span === null ? [0, lastS] : [span[0], Math.min(span[1], lastS)];
  const line = readings.elapsedS.flatMap((atS, row): Point[] => {
    const pressurePa = suction[row] ?? null;
    return pressurePa === null || atS < fromS || atS > toS ? [] : [[atS, bar(pressurePa)]];
  });
  return (
    <Chart
      title="Suction pressure while priming"
      description={`Suction pressure over time. ${primingSentence(result)}`}
      xLabel="time [s]"
      yLabel="suction pressure [bar(a)]"
      series={[{ label: 'suction pressure', style: seriesStyle(0), line, band: [], points: [], openPoints: [] }]}
      xRules={rules}
      yRules={[{ at: bar(result.columnPressurePa), words: 'what the standing column asks for' }]}
      yIncludes={[bar(result.barometerPa)]}
      xRange={[fromS, toS]}
    />
  );
}

function PrimingNumbers({ result }: { readonly result: DryLiftResult }) {
  const priming = result.priming.ok ? result.priming.value : null;
  return (
    <table class="stacking" data-testid="priming-table">
      <tbody>
        {priming !== null && (
          <tr>
            <th scope="row">motor starts</th>
            <td class="number">{printFixed(priming.motorStartS, 2)} s</td>
          </tr>
        )}
        {priming?.primed === true && (
          <>
            <tr>
              <th scope="row">oil at the inlet</th>
              <td class="number">
                {priming.oilAtInletS === null ? 'not seen' : `${printFixed(priming.oilAtInletS, 2)} s`}
              </td>
            </tr>
            <tr>
              <th scope="row">delivers for good</th>
              <td class="number">{printFixed(priming.sustainedDeliveryS, 2)} s</td>
            </tr>
            <tr>
              <th scope="row">priming time, motor start to delivery</th>
              <td class="number">
                <StatedValue stated={priming.primingTimeS} unitSymbol="s" hasUnit={true} />
              </td>
            </tr>
          </>
        )}
        {result.lowestSuctionPressurePa !== null && (
          <tr>
            <th scope="row">lowest suction pressure held</th>
            <td class="number">
              <StatedValue stated={result.lowestSuctionPressurePa} unitSymbol="bar(a)" hasUnit={true} />
            </td>
          </tr>
        )}
        <tr>
          <th scope="row">column: barometer less ρ g h, at {printFixed(result.staticLiftM, 2)} m</th>
          <td class="number">
            {printFixed(bar(result.columnPressurePa), 4)} <span class="unit">bar(a)</span>
          </td>
        </tr>
        <tr>
          <th scope="row">barometer</th>
          <td class="number">
            {printFixed(bar(result.barometerPa), 4)} <span class="unit">bar(a)</span>
          </td>
        </tr>
      </tbody>
    </table>
  );
}

/** What a dry-lift run yields: the sentence, the way up, and its numbers. */
export function DryLiftPassage({ view, result }: { readonly view: RunView; readonly result: DryLiftResult }) {
  const readings = useAnswer(view.run.id, () => ask.readings(view.run.id));
  return (
    <Entry head="Dry lift">
      <p class="lead" data-testid="priming">
        {primingSentence(result)}
      </p>
      <Awaited answer={readings}>{(value) => <PrimingChart result={result} readings={value} />}</Awaited>
      <PrimingNumbers result={result} />
    </Entry>
  );
}
