import type { HoldResult } from '../../../../analysis/result.ts';
import type { RunView } from '../../../api.ts';
import { ask } from '../../shell/ask.ts';
import { Refusal } from '../../shell/Entry.tsx';
import { useAction } from '../../shell/useAction.ts';

function typed(form: FormData, name: string): string {
  const value = form.get(name);
  return typeof value === 'string' ? value.trim() : '';
}

/** Takes a hold out of the fit, or back in, with a reason that is kept. */
export function ExcludeHoldForm(props: {
  readonly view: RunView;
  readonly hold: HoldResult;
  readonly onView: (view: RunView) => void;
}) {
  const { view, hold, onView } = props;
  const action = useAction();
  const isExcluded = hold.leftOut === null;
  const say = (event: SubmitEvent): void => {
    event.preventDefault();
    if (!(event.currentTarget instanceof HTMLFormElement)) return;
    const form = new FormData(event.currentTarget);
    const request = { person: typed(form, 'person'), reason: typed(form, 'reason'), isExcluded };
    action.run(async () => {
      onView(await ask.excludeHold(view.run.id, { ...request, fromS: hold.startS, toS: hold.endS }));
    });
  };
  return (
    <form class="hold-form" onSubmit={say} data-testid="exclude-hold">
      <label class="field">
        <span>{isExcluded ? `why hold ${hold.number} is taken out` : `why hold ${hold.number} goes back in`}</span>
        <input type="text" name="reason" required maxLength={500} autocomplete="off" />
      </label>
      <label class="field">
        <span>by</span>
        <input type="text" name="person" defaultValue={view.run.operator} required maxLength={100} />
      </label>
      <button type="submit" disabled={action.isUnderWay}>
        {isExcluded ? `Take hold ${hold.number} out of the fit` : `Put hold ${hold.number} back into the fit`}
      </button>
      <Refusal text={action.refusal} />
    </form>
  );
}
