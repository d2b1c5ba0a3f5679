import { diagnosisWords } from '../../../analysis/dryLift/diagnosisWords.ts';
import { EVENT_WORDS, eventLines } from '../../../analysis/dryLift/eventWords.ts';
import { riserWords } from '../../../analysis/dryLift/riser/riserWords.ts';
import { printFixed } from '../../../analysis/formatStated.ts';
import type { DryLiftResult } from '../../../analysis/result.ts';
import type { RunReadings, RunView } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Awaited, Entry } from '../shell/Entry.tsx';
import { useAnswer } from '../shell/useAnswer.ts';
import { primingSentence } from '../words/primingSentence.ts';
import { StatedValue } from '../words/StatedValue.tsx';
import { BlankedAdvice } from './dryLift/BlankedAdvice.tsx';
import { ColumnChart } from './dryLift/ColumnChart.tsx';
import { bar, drawnLimit, drawnStart } from './dryLift/drawnStart.ts';
import { EstimatePassage } from './dryLift/EstimatePassage.tsx';
import { StartChart } from './dryLift/StartChart.tsx';
import { TogetherPassage } from './dryLift/TogetherPassage.tsx';

/** An interval of the limit whose ends lie further apart than this calls for a blanked start [1]. */
const WIDE_RATIO = 1.3;

function Charts({ result, readings }: { readonly result: DryLiftResult; readonly readings: RunReadings }) {
  const drawn = drawnStart(result, readings);
  if (drawn === null) return <p>The bench has no suction pressure: the way up cannot be drawn.</p>;
  const limit = drawnLimit(result, drawn);
  return (
    <div class="charts">
      <StartChart result={result} drawn={drawn} limit={limit} sentence={primingSentence(result)} />
      <ColumnChart result={result} drawn={drawn} limit={limit} />
    </div>
  );
}

/** What came of it, by a word before the sentence; none where no oil was to come. */
function provenWord({ priming }: DryLiftResult): string {
  if (!priming.ok) return '';
  return priming.value.primed ? 'Proven: ' : 'Not proven: ';
}

function isLimitWide({ estimate }: DryLiftResult): boolean {
  const limit = estimate.ok ? estimate.value.limits[0]?.limitM : undefined;
  return limit !== undefined && limit.upper > WIDE_RATIO * limit.lower;
}

function PrimingNumbers({ result }: { readonly result: DryLiftResult }) {
  const priming = result.priming.ok ? result.priming.value : null;
  return (
    <table class="stacking" data-testid="priming-table">
      <tbody>
        {eventLines(result.events).map(({ name, event }) => (
          <tr key={name}>
            <th scope="row">{EVENT_WORDS[name]}</th>
            <td class="number">
              {event.seen ? <StatedValue stated={event.atS} unitSymbol="s" hasUnit={true} /> : 'not seen'}
            </td>
          </tr>
        ))}
        {priming?.primed === true && (
          <tr>
            <th scope="row">priming time, motor start to delivery</th>
            <td class="number">
              <StatedValue stated={priming.primingTimeS} unitSymbol="s" hasUnit={true} />
            </td>
          </tr>
        )}
        {result.lowestSuctionPressurePa !== null && (
          <tr>
            <th scope="row">lowest suction pressure held</th>
            <td class="number">
              <StatedValue stated={result.lowestSuctionPressurePa} unitSymbol="bar(a)" hasUnit={true} />
            </td>
          </tr>
        )}
        {priming !== null && (
          <tr>
            <th scope="row">column: barometer less ρ g h, at {printFixed(result.staticLiftM, 2)} m</th>
            <td class="number">
              {printFixed(bar(result.columnPressurePa), 4)} <span class="unit">bar(a)</span>
            </td>
          </tr>
        )}
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

/** What a dry start yields: what is proven, what is estimated, the way up, and the numbers of both. */
export function DryLiftPassage({ view, result }: { readonly view: RunView; readonly result: DryLiftResult }) {
  const readings = useAnswer(view.run.id, () => ask.readings(view.run.id));
  const isBlanked = view.run.kind === 'blanked';
  return (
    <>
      <Entry head={isBlanked ? 'Blanked dry start' : 'Dry lift'}>
        <p class="lead" data-testid="priming">
          <strong>{provenWord(result)}</strong>
          {primingSentence(result)}
        </p>
        {riserWords(result).map((sentence) => (
          <p key={sentence} data-testid="riser">
            {sentence}
          </p>
        ))}
        {result.diagnosis !== null && (
          <div data-testid="diagnosis">
            {diagnosisWords(result.diagnosis).map((sentence) => (
              <p key={sentence}>{sentence}</p>
            ))}
          </div>
        )}
        <EstimatePassage result={result} />
        <Awaited answer={readings}>{(value) => <Charts result={result} readings={value} />}</Awaited>
        <PrimingNumbers result={result} />
        {isLimitWide(result) && <BlankedAdvice pump={view.run.pump} />}
      </Entry>
      <TogetherPassage runId={view.run.id} />
    </>
  );
}
