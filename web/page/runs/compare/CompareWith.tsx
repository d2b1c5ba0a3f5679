import { RUN_KIND_WORDS } from '../../../../analysis/runKindWords.ts';
import type { RunView } from '../../../api.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited } from '../../shell/Entry.tsx';
import { address, goTo } from '../../shell/route.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { wallTime } from '../../words/moments.ts';

/** Chooses a run of the same kind to stand beside the ones that are shown. */
export function CompareWith({ shown }: { readonly shown: readonly RunView[] }) {
  const runs = useAnswer('runs', ask.runs);
  const ids = shown.map(({ run }) => run.id);
  const kind = shown[0]?.run.kind;
  const show = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const chosen = new FormData(event.currentTarget).get('run');
    if (typeof chosen === 'string' && chosen !== '') goTo(address.compare([...ids, chosen]));
  };
  return (
    <Awaited answer={runs}>
      {(list) => {
        const others = list.filter((run) => run.kind === kind && run.ending !== 'open' && !ids.includes(run.id));
        if (kind === undefined) return null;
        if (others.length === 0) return <p>There is no other {RUN_KIND_WORDS[kind]} to compare with.</p>;
        return (
          <form class="compare-form" onSubmit={show} data-testid="compare-with">
            <label class="field">
              <span>{shown.length > 1 ? 'another run' : 'compare with'}</span>
              <select name="run">
                {others.map((run) => (
                  <option key={run.id} value={run.id}>
                    {run.pumpName}, {run.label}, {wallTime(run.startedAtUtc)}
                  </option>
                ))}
              </select>
            </label>
            <button type="submit">Show beside each other</button>
          </form>
        );
      }}
    </Awaited>
  );
}
