import type { ComponentChildren } from 'preact';
import { Refusal } from '../shell/Entry.tsx';
import type { Action } from '../shell/useAction.ts';
import type { Draft } from './formState.ts';

/** The end of a long form: what is wrong, the button, and a way to throw away what was typed and to have it back. */
export function FormEnd(props: {
  readonly draft: Draft;
  readonly action: Action;
  readonly label: string;
  /** What is asked for may not be done at all; why stands elsewhere. */
  readonly isBarred?: boolean;
  /** By field, what is wrong. */
  readonly wrong: Readonly<Record<string, string>>;
  /** Fields that the form shows: what is wrong elsewhere is said here. */
  readonly shown: readonly string[];
  readonly other?: ComponentChildren;
}) {
  const { draft, action, label, wrong, shown } = props;
  const entries = Object.entries(wrong);
  const elsewhere = entries.filter(([name]) => !shown.includes(name));
  const undo = draft.undo();
  return (
    <div class="form-end">
      <div role="alert">
        {entries.length > 0 && (
          <div class="look-here">
            <p>
              {entries.length === 1 ? 'One thing is' : `${entries.length} things are`} missing or wrong: look for ▲.
            </p>
            {elsewhere.length > 0 && (
              <ul>
                {elsewhere.map(([name, why]) => (
                  <li key={name}>
                    {name}: {why}
                  </li>
                ))}
              </ul>
            )}
          </div>
        )}
      </div>
      <p class="button-row">
        <button type="submit" class="chief" disabled={action.isUnderWay || props.isBarred === true}>
          {label}
        </button>
        {!draft.isEmpty() && (
          <button type="button" onClick={draft.clear}>
            Throw away what is typed
          </button>
        )}
        {undo !== null && (
          <button type="button" onClick={undo}>
            Bring back what was thrown away
          </button>
        )}
        {props.other}
      </p>
      <Refusal text={action.refusal} />
    </div>
  );
}

/** Brings the eye and the keys to the first field that is wrong, once it is marked. */
export function focusFirstWrong(form: HTMLFormElement): void {
  requestAnimationFrame(() => {
    const field = form.querySelector('[aria-invalid="true"]');
    if (field instanceof HTMLElement) field.focus();
  });
}
