import { useId, useState } from 'preact/hooks';
import type { TestDayStepState } from '../../../../analysis/guide/testDay.ts';
import type { TestDayEntry } from '../../../../analysis/records/testDayEntry.ts';
import { address } from '../../shell/route.ts';

const STATUS_SHAPES: Readonly<Record<TestDayStepState['status'], string>> = { open: '○', done: '●', skipped: '–' };

type StepProps = {
  readonly state: TestDayStepState;
  readonly isNext: boolean;
  readonly isUnderWay: boolean;
  readonly onSay: (entry: Omit<TestDayEntry, 'atUtc' | 'person'>) => void;
  /** Puts its run into the start form. */
  readonly onSetUp: () => void;
};

function NextStep({ state: { step }, isUnderWay, onSay, onSetUp }: StepProps) {
  const [note, setNote] = useState('');
  const [lacksReason, setLacksReason] = useState(false);
  const id = useId();
  const say = (did: 'done' | 'skipped'): void => {
    if (did === 'skipped' && note.trim() === '') {
      setLacksReason(true);
      return;
    }
    onSay({ step: step.id, did, note: note.trim() });
  };
  return (
    <div class="next-step" data-testid="next-step">
      <p>{step.sentence}</p>
      <div class="field">
        <label for={id}>{step.runKind === null ? 'what was found, or why it is skipped' : 'why it is skipped'}</label>
        <input
          id={id}
          type="text"
          maxLength={500}
          autocomplete="off"
          value={note}
          aria-invalid={lacksReason}
          aria-describedby={lacksReason ? `${id}-error` : undefined}
          onInput={(event) => {
            setNote(event.currentTarget.value);
            setLacksReason(false);
          }}
        />
        {lacksReason && (
          <p class="field-error" id={`${id}-error`}>
            <span aria-hidden="true">▲</span> A skipped step needs its reason: it stands in the record of the day.
          </p>
        )}
      </div>
      <p class="button-row">
        {step.runKind === null ? (
          <button type="button" disabled={isUnderWay} onClick={() => say('done')}>
            Done
          </button>
        ) : (
          <button type="button" onClick={onSetUp}>
            Put this run into the form below
          </button>
        )}
        <button type="button" disabled={isUnderWay} onClick={() => say('skipped')}>
          Skip with this reason
        </button>
      </p>
    </div>
  );
}

/** A step of the day: how it stands; the next one opened, with what to do. */
export function DayStep(props: StepProps) {
  const { state, isNext, isUnderWay, onSay } = props;
  const { step, status, note, person, runId } = state;
  return (
    <li class={isNext ? 'is-next' : ''} aria-current={isNext ? 'step' : undefined}>
      <span aria-hidden="true">{STATUS_SHAPES[status]}</span> {step.title}
      {status !== 'open' && `: ${status}`}
      {runId !== null && (
        <>
          , <a href={address.run(runId)}>run {runId}</a>
        </>
      )}
      {note !== '' && `, ${note}`}
      {person !== '' && <span class="faint"> ({person})</span>}
      {status !== 'open' && runId === null && (
        <>
          {' '}
          <button
            type="button"
            class="quiet"
            disabled={isUnderWay}
            aria-label={`take back: ${step.title}`}
            onClick={() => onSay({ step: step.id, did: 'undone', note: '' })}
          >
            take back
          </button>
        </>
      )}
      {isNext && <NextStep {...props} />}
    </li>
  );
}
