import { describe, expect, it } from 'vitest';
import { judge } from '../../../analysis/judgement/judge.ts';
import { outcomeOf } from '../../../analysis/judgement/outcomeOf.ts';
import { stated } from '../../support/stated.ts';

describe('judge', () => {
  it('gives the probability of conformity of the breakdown voltage example', () => {
    // JCGM 106:2012, clause 7 (from memory, recomputed): upper limit −5.40 V, y = −5.47 V, u = 0.05 V → Φ(1.40) = 0.919243
    const judgement = judge(stated(-5.47, 0.05), { atMost: -5.4 });
    expect(judgement.conformityProbability).toBeCloseTo(0.919243, 6);
    expect(judgement.verdict).toBe('not proven');
  });

  it('accepts at the guarded limit with the false acceptance of guard band w = U', () => {
    // ILAC-G8:09/2019 and JCGM 106: y = L + U, U = 2u → 1 − Φ(2) = 0.022750
    const judgement = judge(stated(12, 1), { atLeast: 10 });
    expect(judgement.verdict).toBe('pass');
    expect(1 - judgement.conformityProbability).toBeCloseTo(0.02275, 6);
  });

  it('passes, fails and leaves open on both sides of a limit', () => {
    expect(judge(stated(11.9, 1), { atLeast: 10 }).verdict).toBe('not proven');
    expect(judge(stated(8.1, 1), { atLeast: 10 }).verdict).toBe('not proven');
    expect(judge(stated(8, 1), { atLeast: 10 }).verdict).toBe('fail');
    expect(judge(stated(8, 1), { atMost: 10 }).verdict).toBe('pass');
  });

  it('holds a value against both ends of a range', () => {
    expect(judge(stated(1.0, 0.01), { atLeast: 0.95, atMost: 1.1 }).verdict).toBe('pass');
    expect(judge(stated(1.09, 0.01), { atLeast: 0.95, atMost: 1.1 }).verdict).toBe('not proven');
    expect(judge(stated(1.2, 0.01), { atLeast: 0.95, atMost: 1.1 }).verdict).toBe('fail');
  });

  it('needs a limit', () => {
    expect(() => judge(stated(1, 0.1), {})).toThrow(RangeError);
  });
});

describe('outcomeOf', () => {
  it('lets a failure decide, then doubt, and never passes what was only measured', () => {
    expect(outcomeOf(['pass', 'fail', 'not proven'])).toBe('fail');
    expect(outcomeOf(['pass', 'not proven'])).toBe('not proven');
    expect(outcomeOf(['pass', 'pass'])).toBe('pass');
    expect(outcomeOf(['pass', 'measured'])).toBe('measured');
    expect(outcomeOf([])).toBe('measured');
  });
});
