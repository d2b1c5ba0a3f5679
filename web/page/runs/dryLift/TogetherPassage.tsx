import { intervalWords, machineWords } from '../../../../analysis/dryLift/dryLiftWords.ts';
import { seriesWords } from '../../../../analysis/dryLift/series/seriesWords.ts';
import { timeIntervalWords } from '../../../../analysis/dryLift/series/timeIntervalWords.ts';
import { togetherWords } from '../../../../analysis/dryLift/series/togetherWords.ts';
import { printRpm } from '../../../../analysis/formatStated.ts';
import type { DrySeries } from '../../../../analysis/resultSchema/drySeriesSchema.ts';
import type { DryTogether } from '../../../../analysis/resultSchema/dryTogetherSchema.ts';
import type { DryEvidence } from '../../../api.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited, Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { StatedValue } from '../../words/StatedValue.tsx';
import { LimitAgainstSpeed } from './LimitAgainstSpeed.tsx';
import { TimeAgainstLift } from './TimeAgainstLift.tsx';

function SeriesPart({ series, runId }: { readonly series: DrySeries; readonly runId: string }) {
  return (
    <div data-testid="dry-series">
      {seriesWords(series).map((sentence, index) => (
        <p key={sentence} class={index === 0 ? 'lead' : undefined}>
          {sentence}
        </p>
      ))}
      {series.warnings.map(({ code, text }) => (
        <p key={code} class="look-here">
          {text}
        </p>
      ))}
      <table class="stacking">
        <thead>
          <tr>
            <th scope="col">start</th>
            <th scope="col" class="number">
              priming time
            </th>
            <th scope="col">counts</th>
          </tr>
        </thead>
        <tbody>
          {series.starts.map(({ runId: id, primingTimeS, watchedForS, whyNotCounted }) => (
            <tr key={id}>
              <th scope="row">{id === runId ? `run ${id}, this one` : <a href={address.run(id)}>run {id}</a>}</th>
              <td data-head="priming time" class="number">
                {primingTimeS === null ? (
                  `no oil in ${(watchedForS ?? 0).toFixed(1)} s`
                ) : (
                  <StatedValue stated={primingTimeS} unitSymbol="s" hasUnit={true} />
                )}
              </td>
              <td data-head="counts">{whyNotCounted ?? 'yes'}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function Numbers({ together }: { readonly together: DryTogether }) {
  const { limitAgainstSpeed, timeAgainstLift, timeSpeedRevPerS, wetness } = together;
  return (
    <details>
      <summary>The numbers of both curves</summary>
      <table class="stacking">
        <caption>Dry lift limit, in class {wetness}; intervals are for 95 %.</caption>
        <tbody>
          {limitAgainstSpeed.map(({ speedRevPerS, limitM }) => (
            <tr key={speedRevPerS}>
              <th scope="row">{printRpm(speedRevPerS)} r/min</th>
              <td class="number">{intervalWords(limitM, 'm')}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {timeSpeedRevPerS !== null && (
        <table class="stacking">
          <caption>Motor start to delivery, at {printRpm(timeSpeedRevPerS)} r/min.</caption>
          <tbody>
            {timeAgainstLift.map(({ liftM, timeS }) => (
              <tr key={liftM}>
                <th scope="row">{liftM.toFixed(2)} m</th>
                <td class="number">{timeIntervalWords(timeS)}</td>
              </tr>
            ))}
          </tbody>
        </table>
      )}
    </details>
  );
}

/** What the fitted pump would do in its machine; nothing where the machine's suction is not known. */
function MachinePart({ together }: { readonly together: DryTogether }) {
  const words = machineWords(together);
  return words === null ? null : (
    <p class="lead" data-testid="machine-prediction">
      {words}
    </p>
  );
}

function Evidence({ evidence, runId }: { readonly evidence: DryEvidence; readonly runId: string }) {
  const { series, together } = evidence;
  return (
    <>
      {series !== null && <SeriesPart series={series} runId={runId} />}
      {together.ok ? (
        <div data-testid="dry-together">
          {togetherWords(together.value).map((sentence, index) => (
            <p key={sentence} class={index === 0 ? 'lead' : undefined}>
              {sentence}
            </p>
          ))}
          <MachinePart together={together.value} />
          <div class="charts">
            <LimitAgainstSpeed together={together.value} series={series} />
            <TimeAgainstLift together={together.value} series={series} />
          </div>
          <Numbers together={together.value} />
        </div>
      ) : (
        <p class="look-here">No limit against speed is estimated. {together.reason.text}</p>
      )}
    </>
  );
}

/** What the pump's dry starts say together: how often it primed, and the limit at other speeds and the time at other lifts. */
export function TogetherPassage({ runId }: { readonly runId: string }) {
  const evidence = useAnswer(`dry-evidence-${runId}`, () => ask.dryEvidence(runId));
  return (
    <Entry head="Dry starts together">
      <Awaited answer={evidence}>{(value) => <Evidence evidence={value} runId={runId} />}</Awaited>
    </Entry>
  );
}
