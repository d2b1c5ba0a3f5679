import type { RunKind } from '../records/runRecord.ts';
import type { TestDayEntry, TestDayStepId } from '../records/testDayEntry.ts';

/** A step of a test day. */
export type TestDayStep = {
  readonly id: TestDayStepId;
  readonly title: string;
  /** What is done, as a fitter would say it. */
  readonly sentence: string;
  /** The run that shows it; null: a hand says that it is done. */
  readonly runKind: RunKind | null;
};

/**
 * A test day in the order that does not spoil what comes after: common practice, no source. Dry starts as assembled come
 * before any oil, since one start from the lift floods the pump.
 */
export const TEST_DAY_STEPS: readonly TestDayStep[] = [
  {
    id: 'handTurn',
    title: 'Turn by hand',
    sentence:
      'Turn ten turns by hand, torque every 30 degrees. Jog the motor with both ports open to see the direction: reversed pressure can blow the shaft seal.',
    runKind: null,
  },
  {
    id: 'vacuumHold',
    title: 'Vacuum hold of the suction pipe',
    sentence:
      'Flange valve shut, draw the suction pipe down and see whether it holds: a pipe that lets air in spoils every dry start.',
    runKind: null,
  },
  {
    id: 'zero',
    title: 'Zeros, barometer, heights',
    sentence:
      'Take the zero check at rest, read the barometer, tape the heights of all datum points, note what fills the sensor tubes.',
    runKind: null,
  },
  {
    id: 'blanked',
    title: 'Blanked starts',
    sentence: 'As assembled, before any flooding: suction shut at the flange, two speeds.',
    runKind: 'blanked',
  },
  {
    id: 'dryStart',
    title: 'One start from the lift, as assembled',
    sentence: 'One start at cranking or idle speed. It floods the pump: in this state the evidence is one of one.',
    runKind: 'dryLift',
  },
  {
    id: 'flood',
    title: 'Flood and vent',
    sentence: 'Flood, vent, run without load at moderate speed. Never hot oil into a cold pump.',
    runKind: null,
  },
  {
    id: 'runIn',
    title: 'Run in',
    sentence: 'Raise the pressure step by step until torque and case temperature level; then look at the filter.',
    runKind: null,
  },
  {
    id: 'soak',
    title: 'Soak',
    sentence: 'Let it run until the case drifts less than 1 K in 10 minutes.',
    runKind: null,
  },
  {
    id: 'delivery',
    title: 'Delivery',
    sentence: 'Pressures up and down, speeds mixed, the first hold repeated last.',
    runKind: 'delivery',
  },
  {
    id: 'relief',
    title: 'Relief valve',
    sentence: 'Pressure up through its opening and down again.',
    runKind: 'relief',
  },
  {
    id: 'suction',
    title: 'Suction run',
    sentence: 'Flow against a deeper and deeper vacuum at the inlet.',
    runKind: 'suction',
  },
  {
    id: 'drainedStarts',
    title: 'Dry starts, drained (W2)',
    sentence: 'Drain by the rite, ten minutes between starts; here a series is possible.',
    runKind: 'dryLift',
  },
  {
    id: 'after',
    title: 'Afterwards',
    sentence: 'Hand torque again, external leaks, filter; preserve the pump and plug its ports.',
    runKind: null,
  },
];

/** How a step of the day stands. */
export type TestDayStepState = {
  readonly step: TestDayStep;
  readonly status: 'open' | 'done' | 'skipped';
  /** The reason where it was skipped, what was found where it was done; empty where nobody wrote. */
  readonly note: string;
  /** Who said so; empty where a run showed it. */
  readonly person: string;
  readonly runId: string | null;
};

/** A day as far as it has come. */
export type TestDayState = {
  readonly begunAtUtc: string;
  readonly steps: readonly TestDayStepState[];
  /** The first that is open; null: all are settled. */
  readonly nextId: TestDayStepId | null;
};

/** A sealed run of the pump, as a test day needs to know it. */
export type DayRun = { readonly id: string; readonly kind: RunKind; readonly startedAtUtc: string };

type Happening =
  | { readonly atUtc: string; readonly entry: TestDayEntry }
  | { readonly atUtc: string; readonly run: DayRun };

const OPEN = { status: 'open', note: '', person: '', runId: null } as const;

/** The steps after one more thing has happened. A run settles the first open step of its kind. */
function after(steps: readonly TestDayStepState[], happening: Happening): readonly TestDayStepState[] {
  if ('run' in happening) {
    const { id, kind } = happening.run;
    const settled = steps.find(({ step, status }) => step.runKind === kind && status === 'open');
    return steps.map((state) => (state === settled ? { ...OPEN, step: state.step, status: 'done', runId: id } : state));
  }
  const { step, did, note, person } = happening.entry;
  return steps.map((state) => {
    if (state.step.id !== step) return state;
    if (did === 'undone') return { ...OPEN, step: state.step };
    return { step: state.step, status: did === 'skipped' ? 'skipped' : 'done', note, person, runId: null };
  });
}

/**
 * How the last test day of a pump stands: what was done or skipped by hand, and what its runs show.
 *
 * @param entries - what people said, oldest first [-]
 * @param runs - sealed runs of the pump [-]
 * @returns the day; null: none was begun [-]
 */
export function testDayState(entries: readonly TestDayEntry[], runs: readonly DayRun[]): TestDayState | null {
  const begun = entries.findLastIndex(({ did }) => did === 'begun');
  const first = entries[begun];
  if (first === undefined) return null;
  const happenings: readonly Happening[] = [
    ...entries.slice(begun + 1).map((entry) => ({ atUtc: entry.atUtc, entry })),
    ...runs.filter(({ startedAtUtc }) => startedAtUtc >= first.atUtc).map((run) => ({ atUtc: run.startedAtUtc, run })),
  ].sort((a, b) => a.atUtc.localeCompare(b.atUtc));
  const steps = happenings.reduce(
    after,
    TEST_DAY_STEPS.map((step): TestDayStepState => ({ ...OPEN, step })),
  );
  return {
    begunAtUtc: first.atUtc,
    steps,
    nextId: steps.find(({ status }) => status === 'open')?.step.id ?? null,
  };
}
