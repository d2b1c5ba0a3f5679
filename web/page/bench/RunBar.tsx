import { useRef } from 'preact/hooks';
import { RUN_KIND_WORDS } from '../../../analysis/runKindWords.ts';
import type { OpenRun } from '../../api.ts';
import { ask } from '../shell/ask.ts';
import { Refusal } from '../shell/Entry.tsx';
import { useAction } from '../shell/useAction.ts';
import { clockFace } from '../words/moments.ts';

/** The run being recorded, with stop and mark always in reach. */
export function RunBar({ run }: { readonly run: OpenRun }) {
  const action = useAction();
  const markText = useRef<HTMLInputElement>(null);

  const mark = (event: Event): void => {
    event.preventDefault();
    const input = markText.current;
    if (input === null) return;
    action.run(async () => {
      await ask.mark({ text: input.value });
      input.value = '';
    });
  };
  const stop = (): void => {
    action.run(async () => {
      await ask.stopRun({
        reason: run.guide.isFinished ? 'all points taken, stopped by the operator' : 'stopped by the operator',
      });
    });
  };

  return (
    <div class="run-bar" data-testid="run-bar">
      <h1>
        {run.pumpName} · {RUN_KIND_WORDS[run.kind]} ·{' '}
        <span class="run-clock" data-testid="run-clock">
          {clockFace(run.elapsedS)}
        </span>
      </h1>
      <form class="mark-form" onSubmit={mark}>
        <label class="field">
          <span>what happened{run.kind === 'dryLift' && ', or ‘riser 0.43 m’'}</span>
          <input ref={markText} name="mark" type="text" required maxLength={500} autocomplete="off" />
        </label>
        <button type="submit" disabled={action.isUnderWay}>
          Mark
        </button>
      </form>
      <button type="button" class="chief" disabled={action.isUnderWay} onClick={stop}>
        Stop recording
      </button>
      <Refusal text={action.refusal} />
    </div>
  );
}
