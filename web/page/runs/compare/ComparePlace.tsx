import type { RunView } from '../../../api.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited, Entry } from '../../shell/Entry.tsx';
import { address } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { wallTime } from '../../words/moments.ts';
import { Differences } from './Differences.tsx';

function Compared({ views }: { readonly views: readonly RunView[] }) {
  return (
    <>
      <h1>Runs beside each other</h1>
      <ol data-testid="compared-runs">
        {views.map(({ run }) => (
          <li key={run.id}>
            <a href={address.run(run.id)}>{wallTime(run.startedAtUtc)}</a>, {run.pump.name}, no. {run.pump.serialNumber}
            , {run.label}
          </li>
        ))}
      </ol>
      <Entry head="Differences">
        <Differences views={views} />
      </Entry>
    </>
  );
}

/** Two or more runs beside each other: before and after, this pump and its sister. */
export function ComparePlace({ ids }: { readonly ids: readonly string[] }) {
  const views = useAnswer(ids.join(), () => Promise.all(ids.map(ask.run)));
  return <Awaited answer={views}>{(value) => <Compared views={value} />}</Awaited>;
}
