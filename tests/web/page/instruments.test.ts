import { describe, expect, it } from 'vitest';
import { calibration } from '../../../analysis/records/benchRecord.ts';
import type { FormState } from '../../../web/page/forms/formState.ts';
import { parseTree } from '../../../web/page/forms/parseRecord.ts';
import { calibrationBefore, calibrationTree, rowCount } from '../../../web/page/instruments/calibrationTree.ts';
import { dueOf, rangeWords } from '../../../web/page/instruments/dueWords.ts';
import { accepted } from '../../support/accepted.ts';
import { sampleBench } from '../../support/samples.ts';
import { typedForm } from '../../support/typedForm.ts';

function calibratedFlow() {
  for (const entry of sampleBench().channels) {
    if (entry.channel === 'flow' && entry.calibration !== null) return { channel: entry, inForce: entry.calibration };
  }
  throw new Error('the sample bench has a calibrated flow meter');
}

const { channel: FLOW, inForce } = calibratedFlow();
const due = (dueOn: string, today: string) => dueOf({ calibration: { ...inForce, dueOn } }, today);

const formOf = (texts: Readonly<Record<string, string>>): FormState => typedForm(texts, calibrationBefore(FLOW), true);

describe('the date of the next calibration', () => {
  it('counts days by the calendar, over a leap day and a change of summer time', () => {
    // 2028 is a leap year: 29 days in February, so the 20th to the 10th of March are 19 days
    expect(due('2028-03-10', '2028-02-20')).toMatchObject({ daysLeft: 19, isWorthALook: true });
    expect(due('2026-10-31', '2026-10-01').words).toBe('due in 30 days, on 2026-10-31');
  });

  it('says what is overdue, and that nobody vouches where there is none', () => {
    expect(due('2026-01-01', '2026-01-02').words).toContain('overdue since 2026-01-01');
    expect(due('2026-01-02', '2026-01-02').words).toContain('today');
    expect(due('2027-01-02', '2026-01-02')).toMatchObject({ isWorthALook: false });
    expect(dueOf({ calibration: null }, '2026-01-02')).toMatchObject({ isWorthALook: true });
    expect(rangeWords({ range: { min: -1, max: 40 } })).toBe('−1 to 40');
  });
});

describe('the form of a calibration', () => {
  const STATED = { reference: 'K-77 (invented)', calibratedOn: '2026-11-01', dueOn: '2027-11-01' };

  it('keeps the errors that stand in force where none are typed, and asks for the papers anew', () => {
    const { tree, errors } = calibrationTree(formOf(STATED), FLOW, 'l/min');
    expect(errors).toEqual({});
    expect(accepted(parseTree(calibration, tree))).toMatchObject({
      ...STATED,
      gain: inForce.gain,
      offset: inForce.offset,
      curve: null,
    });
    expect(parseTree(calibration, calibrationTree(formOf({}), FLOW, 'l/min').tree).ok).toBe(false);
  });

  it('takes points as a curve, and names the half of a pair', () => {
    const points = Object.fromEntries(
      [2, 10, 20, 30].flatMap((raw, index) => [
        [`curve.points.${index}.raw`, String(raw)],
        [`curve.points.${index}.reference`, String(1.01 * raw)],
      ]),
    );
    const whole = calibrationTree(formOf({ ...STATED, ...points }), FLOW, 'l/min');
    expect(accepted(parseTree(calibration, whole.tree)).curve?.points).toHaveLength(4);
    expect(rowCount(formOf(points), 'l/min')).toBe(5);
    const half = calibrationTree(formOf({ ...STATED, ...points, 'curve.points.4.raw': '35' }), FLOW, 'l/min');
    expect(half.errors['curve.points.4.reference']).toContain('is missing');
  });
});
