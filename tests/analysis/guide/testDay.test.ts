import { describe, expect, it } from 'vitest';
import { TEST_DAY_STEPS, testDayState } from '../../../analysis/guide/testDay.ts';
import { type TestDayEntry, testDayEntry, testDayStepId } from '../../../analysis/records/testDayEntry.ts';

const at = (minute: number): string => `2026-06-01T08:${String(minute).padStart(2, '0')}:00Z`;
const said = (minute: number, entry: Partial<TestDayEntry>): TestDayEntry => ({
  atUtc: at(minute),
  person: 'A. Fitter',
  step: null,
  did: 'begun',
  note: '',
  ...entry,
});

describe('a test day', () => {
  it('has every step that an entry may name, each once', () => {
    expect(TEST_DAY_STEPS.map(({ id }) => id)).toEqual(testDayStepId.options);
  });

  it('is not there before somebody begins it', () => {
    expect(testDayState([], [])).toBeNull();
  });

  it('goes on by what hands say and by what runs show, in the order of the clock', () => {
    const day = testDayState(
      [
        said(0, {}),
        said(1, { step: 'handTurn', did: 'done', note: '0.4 N m' }),
        said(2, { step: 'vacuumHold', did: 'skipped', note: 'no flange valve' }),
        said(3, { step: 'zero', did: 'done' }),
      ],
      [
        { id: 'of-another-day', kind: 'blanked', startedAtUtc: '2026-05-01T08:00:00Z' },
        { id: 'r1', kind: 'blanked', startedAtUtc: at(4) },
        { id: 'r2', kind: 'dryLift', startedAtUtc: at(5) },
        { id: 'r3', kind: 'dryLift', startedAtUtc: at(9) },
      ],
    );
    const status = Object.fromEntries((day?.steps ?? []).map((state) => [state.step.id, state]));
    expect(status.handTurn).toMatchObject({ status: 'done', note: '0.4 N m', person: 'A. Fitter' });
    expect(status.vacuumHold).toMatchObject({ status: 'skipped', note: 'no flange valve' });
    expect(status.blanked).toMatchObject({ status: 'done', runId: 'r1' });
    // the first start from the lift is the one as assembled, a second one is a drained one
    expect(status.dryStart?.runId).toBe('r2');
    expect(status.drainedStarts?.runId).toBe('r3');
    expect(day?.nextId).toBe('flood');
  });

  it('takes a step back, and begins anew', () => {
    const entries = [
      said(0, {}),
      said(1, { step: 'handTurn', did: 'done' }),
      said(2, { step: 'handTurn', did: 'undone' }),
    ];
    expect(testDayState(entries, [])?.nextId).toBe('handTurn');
    const again = [said(0, {}), said(1, { step: 'handTurn', did: 'done' }), said(2, {})];
    expect(testDayState(again, [])).toMatchObject({ begunAtUtc: at(2), nextId: 'handTurn' });
  });

  it('asks for the reason of a skipped step', () => {
    expect(testDayEntry.safeParse(said(1, { step: 'soak', did: 'skipped' })).success).toBe(false);
    expect(testDayEntry.safeParse(said(1, { step: 'soak', did: 'skipped', note: 'no time' })).success).toBe(true);
    expect(testDayEntry.safeParse(said(1, { step: null, did: 'done' })).success).toBe(false);
  });
});
