import { describe, expect, it } from 'vitest';
import { dryLiftText } from '../../../rig/commandLine/dryLiftText.ts';
import { dryLiftRun } from '../../support/certificateRuns.ts';

describe('a dry start in a terminal', () => {
  const { dryLift } = dryLiftRun().result;

  it('says what is proven first, then what is estimated, with what it rests on', () => {
    const [proven, estimated, ...rest] = dryLiftText({ dryLift });
    expect(proven).toMatch(/^Proven: /);
    expect(estimated).toBe('Estimated: dry lift limit 5.9 m (95 %: 4.2 to 8.2 m) at 599 r/min, in class W1.');
    expect(rest.join('\n')).toContain('dead volume               57 cm³ (95 %: 38 to 86 cm³)');
    expect(rest.at(-1)).toContain('Not told by the readings');
  });

  it('says nothing of an estimate that was refused: its finding does', () => {
    if (dryLift === null) throw new Error('fixture');
    const estimate = { ok: false, reason: { code: 'NO_SUCTION', text: 'The suction hardly fell.' } } as const;
    expect(dryLiftText({ dryLift: { ...dryLift, estimate } })).toHaveLength(1);
    expect(dryLiftText({ dryLift: null })).toEqual([]);
  });
});
