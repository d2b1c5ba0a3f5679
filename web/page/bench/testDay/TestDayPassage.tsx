import { testDayState } from '../../../../analysis/guide/testDay.ts';
import type { TestDayEntry } from '../../../../analysis/records/testDayEntry.ts';
import type { PumpList, RunListEntry } from '../../../api.ts';
import { useDraft } from '../../forms/draft.ts';
import { sessionState, testDayNews } from '../../live/liveBench.ts';
import { ask } from '../../shell/ask.ts';
import { Awaited, Refusal } from '../../shell/Entry.tsx';
import { type Action, useAction } from '../../shell/useAction.ts';
import { useAnswer } from '../../shell/useAnswer.ts';
import { useLatest } from '../../shell/useLatest.ts';
import { wallTime } from '../../words/moments.ts';
import { DayStep } from './DayStep.tsx';

type Day = { readonly entries: readonly TestDayEntry[]; readonly runs: readonly RunListEntry[] };

async function askDay(pumpId: string): Promise<Day> {
  const [entries, runs] = await Promise.all([ask.testDay(pumpId), ask.runs()]);
  return { entries, runs: runs.filter((run) => run.pumpId === pumpId && run.ending !== 'open') };
}

function DayOf({
  pumpId,
  pumpName,
  day,
  action,
}: {
  readonly pumpId: string;
  readonly pumpName: string;
  readonly day: Day;
  readonly action: Action;
}) {
  const start = useDraft('start');
  const state = testDayState(day.entries, day.runs);
  const person = (start.text('operator') ?? day.entries.at(-1)?.person ?? '').trim();
  const say = (request: Omit<TestDayEntry, 'atUtc' | 'person'>): void => {
    action.run(async () => {
      await ask.addToTestDay(pumpId, { ...request, person });
      testDayNews.value += 1;
    });
  };
  const isNobody = person === '';
  const who = (
    <div class="fields">
      <div class="field">
        <label for="day-person">who works at the bench today</label>
        <input
          id="day-person"
          type="text"
          maxLength={100}
          autocomplete="off"
          value={start.text('operator') ?? person}
          onInput={(event) => start.set('operator', event.currentTarget.value)}
        />
      </div>
    </div>
  );
  const begin = (
    <button type="button" disabled={action.isUnderWay} onClick={() => say({ step: null, did: 'begun', note: '' })}>
      Begin a test day for {pumpName}
    </button>
  );
  if (state === null) {
    return (
      <>
        <p>
          A test day leads through all steps in the order that does not spoil what comes after. A single run needs none.
        </p>
        {who}
        <p>{begin}</p>
      </>
    );
  }
  const settled = state.steps.filter(({ status }) => status !== 'open').length;
  return (
    <>
      <p>
        {pumpName}, begun {wallTime(state.begunAtUtc)}: {settled} of {state.steps.length} steps settled.
      </p>
      {who}
      <ol class="day-steps" data-testid="test-day">
        {state.steps.map((step) => (
          <DayStep
            key={step.step.id}
            state={step}
            isNext={step.step.id === state.nextId}
            isUnderWay={action.isUnderWay || isNobody}
            onSay={say}
            onSetUp={() => {
              start.set('pumpId', pumpId);
              start.set('kind', step.step.runKind ?? 'delivery');
              if (step.step.id === 'drainedStarts') start.set('setUp.wetness', 'W2');
              document.querySelector('[data-testid="start-form"]')?.scrollIntoView();
            }}
          />
        ))}
      </ol>
      {state.nextId === null && <p>{begin}</p>}
    </>
  );
}

function PumpDay({ pumps }: { readonly pumps: PumpList }) {
  const start = useDraft('start');
  const action = useAction();
  const pump = pumps.find(({ id }) => id === start.text('pumpId')) ?? pumps[0];
  const openRunId = sessionState.value?.openRun?.id ?? 'none';
  const day = useLatest(`${pump?.id} ${openRunId} ${testDayNews.value}`, () => askDay(pump?.id ?? ''));
  if (pump === undefined) return <p class="faint">Once there is a pump record, its test day stands here.</p>;
  return (
    <>
      <Awaited answer={day}>
        {(value) => <DayOf key={pump.id} pumpId={pump.id} pumpName={pump.name} day={value} action={action} />}
      </Awaited>
      <Refusal text={action.refusal} />
    </>
  );
}

/** The guided test day of the pump that stands in the start form; the same at every browser. */
export function TestDayPassage() {
  const pumps = useAnswer('pumps', ask.pumps);
  return <Awaited answer={pumps}>{(list) => <PumpDay pumps={list} />}</Awaited>;
}
