import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { RunListEntry } from '../../api.ts';
import { sessionState } from '../live/liveBench.ts';
import { ask } from '../shell/ask.ts';
import { Awaited } from '../shell/Entry.tsx';
import { address } from '../shell/route.ts';
import { useAnswer } from '../shell/useAnswer.ts';
import { wallTime } from '../words/moments.ts';
import { ENDING_WORDS } from '../words/runWords.ts';

/** Runs as rows, newest first. */
export function RunTable({ runs, hasPump }: { readonly runs: readonly RunListEntry[]; readonly hasPump: boolean }) {
  return (
    <table class="stacking" data-testid="run-table">
      <thead>
        <tr>
          <th scope="col">begun</th>
          {hasPump && <th scope="col">pump</th>}
          <th scope="col">run</th>
          <th scope="col">state of the pump</th>
          <th scope="col">ending</th>
          <th scope="col">outcome</th>
        </tr>
      </thead>
      <tbody>
        {runs.map((run) => (
          <tr key={run.id}>
            <th scope="row">
              <a href={run.ending === 'open' ? address.bench : address.run(run.id)}>{wallTime(run.startedAtUtc)}</a>
            </th>
            {hasPump && <td>{run.pumpName}</td>}
            <td>{RUN_KIND_WORDS[run.kind]}</td>
            <td data-head="state">{run.label}</td>
            <td data-head="ending">{ENDING_WORDS[run.ending]}</td>
            <td data-head="outcome" class="verdict">
              {run.outcome ?? '–'}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

/** Every run in the archive. */
export function RunsPlace() {
  const openRunId = sessionState.value?.openRun?.id ?? 'none';
  const runs = useAnswer(openRunId, ask.runs);
  return (
    <>
      <h1>Runs</h1>
      <Awaited answer={runs}>
        {(list) =>
          list.length === 0 ? (
            <p>
              No run has been recorded yet. Start one at <a href={address.bench}>the bench</a>.
            </p>
          ) : (
            <RunTable runs={list} hasPump={true} />
          )
        }
      </Awaited>
    </>
  );
}
