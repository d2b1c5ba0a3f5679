import type { ComponentChildren } from 'preact';
import { useId } from 'preact/hooks';
import { type AskedQuantity, readTyped, withUnit } from './askedQuantity.ts';
import { type FormState, plainText, quantityText } from './formState.ts';

function FieldFrame(frame: {
  readonly label: ComponentChildren;
  readonly id: string;
  readonly error: string | null;
  readonly help?: string | undefined;
  readonly children: ComponentChildren;
}) {
  return (
    <div class="field">
      <label for={frame.id}>{frame.label}</label>
      {frame.children}
      {frame.error !== null && (
        <p class="field-error" id={`${frame.id}-error`}>
          <span aria-hidden="true">▲</span> {frame.error}
        </p>
      )}
      {frame.help !== undefined && frame.error === null && (
        <p class="field-help" id={`${frame.id}-help`}>
          {frame.help}
        </p>
      )}
    </div>
  );
}

/** Asks for a quantity: with a unit or without, the error beside it in words. */
export function QuantityInput(props: {
  readonly form: FormState;
  readonly asked: AskedQuantity;
  readonly help?: string;
}) {
  const { form, asked, help } = props;
  const id = useId();
  const { system } = form;
  const text = quantityText(form, asked);
  const read = readTyped(asked, text, system);
  const isSilent = text.trim() === '' && !form.wasTried;
  const error = form.refused[asked.name] ?? (read.ok || isSilent ? null : read.reason);
  return (
    <FieldFrame label={asked.label} id={id} error={error} help={help}>
      <input
        id={id}
        name={asked.name}
        type="text"
        autocomplete="off"
        value={text}
        aria-invalid={error !== null}
        aria-describedby={error !== null ? `${id}-error` : help === undefined ? undefined : `${id}-help`}
        onInput={(event) => form.draft.set(asked.name, event.currentTarget.value)}
        onBlur={(event) => {
          const whole = withUnit(asked, event.currentTarget.value, system);
          if (form.draft.text(asked.name) !== null) form.draft.set(asked.name, whole);
        }}
      />
    </FieldFrame>
  );
}

/** Asks for words. */
export function WordsInput(props: {
  readonly form: FormState;
  readonly name: string;
  readonly label: string;
  readonly usual?: string;
  readonly isOptional?: boolean;
  readonly help?: string;
}) {
  const { form, name, usual, isOptional = false, help } = props;
  const id = useId();
  const text = plainText(form, name, usual);
  const isMissing = !isOptional && form.wasTried && text.trim() === '';
  const error = form.refused[name] ?? (isMissing ? 'is needed' : null);
  return (
    <FieldFrame label={props.label} id={id} error={error} help={help}>
      <input
        id={id}
        name={name}
        type="text"
        autocomplete="off"
        maxLength={500}
        value={text}
        aria-invalid={error !== null}
        aria-describedby={error === null ? undefined : `${id}-error`}
        onInput={(event) => form.draft.set(name, event.currentTarget.value)}
      />
    </FieldFrame>
  );
}

/** Asks for one of a few. */
export function ChoiceOf(props: {
  readonly form: FormState;
  readonly name: string;
  readonly label: string;
  readonly choices: readonly (readonly [value: string, words: string])[];
  readonly usual: string;
}) {
  const { form, name, usual } = props;
  const id = useId();
  const chosen = plainText(form, name, usual);
  return (
    <FieldFrame label={props.label} id={id} error={form.refused[name] ?? null}>
      <select id={id} name={name} onChange={(event) => form.draft.set(name, event.currentTarget.value)}>
        {props.choices.map(([value, words]) => (
          <option key={value} value={value} selected={value === chosen}>
            {words}
          </option>
        ))}
      </select>
    </FieldFrame>
  );
}

/** A tick: 'yes' or 'no'. */
export function TickOf(props: {
  readonly form: FormState;
  readonly name: string;
  readonly label: string;
  readonly usual: boolean;
}) {
  const { form, name, usual } = props;
  return (
    <label class="choice">
      <input
        type="checkbox"
        name={name}
        checked={plainText(form, name, usual ? 'yes' : 'no') === 'yes'}
        onChange={(event) => form.draft.set(name, event.currentTarget.checked ? 'yes' : 'no')}
      />
      <span>{props.label}</span>
    </label>
  );
}
