import type { RunView } from '../../../api.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited, Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { wallTime } from '../../words/moments.ts';
import { verdictSentence } from '../../words/verdictSentence.ts';
import { CompareWith } from './CompareWith.tsx';
import { type ComparedRun, comparedRuns } from './comparedRuns.ts';
import { Differences } from './Differences.tsx';
import { DryStarts } from './DryStarts.tsx';
import { FlowDifferenceChart } from './FlowDifferenceChart.tsx';
import { OverlayCharts } from './OverlayCharts.tsx';
import { OverlayRecord } from './OverlayRecord.tsx';

function RunRow({ run: compared, ids }: { readonly run: ComparedRun; readonly ids: readonly string[] }) {
  const { run, result } = compared.view;
  const others = ids.filter((id) => id !== run.id);
  return (
    <tr>
      <th scope="row">{compared.letter}</th>
      <td data-head="run">
        <a href={address.run(run.id)}>{wallTime(run.startedAtUtc)}</a>
      </td>
      <td data-head="pump">
        {run.pump.name}, <span class="unbroken">no. {run.pump.serialNumber}</span>
      </td>
      <td data-head="state">{run.label}</td>
      <td data-head="oil">{run.oil.name}</td>
      <td data-head="verdict">{verdictSentence(result)}</td>
      <td>
        {others.length > 0 && (
          <a href={others.length === 1 ? address.run(others[0] ?? '') : address.compare(others)}>leave out</a>
        )}
      </td>
    </tr>
  );
}

function Compared({ views }: { readonly views: readonly RunView[] }) {
  const runs = comparedRuns(views);
  const ids = views.map(({ run }) => run.id);
  const [first, ...others] = runs;
  if (first === undefined) return <p>No run is named in the address.</p>;
  const hasLaws = runs.some(({ law }) => law !== null);
  return (
    <>
      <h1>Runs beside each other</h1>
      <Entry head="The runs">
        <table class="stacking" data-testid="compared-runs">
          <caption>The first is the one that the others are held against.</caption>
          <thead>
            <tr>
              <td />
              <th scope="col">run</th>
              <th scope="col">pump</th>
              <th scope="col">state of the pump</th>
              <th scope="col">oil</th>
              <th scope="col">verdict</th>
              <td />
            </tr>
          </thead>
          <tbody>
            {runs.map((run) => (
              <RunRow key={run.view.run.id} run={run} ids={ids} />
            ))}
          </tbody>
        </table>
        <CompareWith shown={views} />
      </Entry>
      {others.length > 0 && (
        <Entry head="Differences">
          {hasLaws && others.map((run) => <FlowDifferenceChart key={run.letter} now={run} first={first} />)}
          {hasLaws && others.map((run) => <Differences key={run.letter} now={run} first={first} />)}
          <DryStarts runs={runs} />
        </Entry>
      )}
      {hasLaws && (
        <Entry head="Over each other">
          <OverlayCharts runs={runs} />
        </Entry>
      )}
      <Entry head="The records">
        <OverlayRecord runs={runs} />
      </Entry>
    </>
  );
}

/** Two or more runs beside each other: before and after, this pump and its sister. */
export function ComparePlace({ ids }: { readonly ids: readonly string[] }) {
  const views = useAnswer(ids.join(), () => Promise.all(ids.map(ask.run)));
  return <Awaited answer={views}>{(value) => <Compared views={value} />}</Awaited>;
}
