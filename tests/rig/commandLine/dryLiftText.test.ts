import { describe, expect, it } from 'vitest';
import { dryLiftText } from '../../../rig/commandLine/dryLiftText.ts';
import { dryLiftRun } from '../../support/certificateRuns.ts';

describe('a dry start in a terminal', () => {
  const { dryLift } = dryLiftRun().result;

  it('says what is proven first, with its events, then what is estimated, with what it rests on', () => {
    const [proven, ...lines] = dryLiftText({ dryLift });
    expect(proven).toMatch(/^Proven: /);
    // U = 2 × 0.01 s, 2 × 0.03 s and so on, by the fixture.
    expect(lines.slice(0, 5)).toEqual([
      '  motor starts              4.020 ± 0.020 s, by the speed',
      '  first suction             4.170 ± 0.060 s, by the suction pressure',
      '  oil at the inlet          8.31 ± 0.18 s, by the suction pressure',
      '  oil at the outlet         9.120 ± 0.080 s, by the flow',
      '  delivers for good         9.33 ± 0.12 s, by the flow',
    ]);
    const [estimated, ...rest] = lines.slice(5);
    expect(estimated).toBe('Estimated: dry lift limit 5.9 m (95 %: 4.2 to 8.2 m) at 599 r/min, in class W1.');
    expect(rest.join('\n')).toContain('dead volume               57 cm³ (95 %: 38 to 86 cm³)');
    expect(rest.at(-1)).toContain('Not told by the readings');
  });

  it('says why an event was not seen, and nothing of the events of a start that could not be read', () => {
    if (dryLift?.events === undefined || dryLift.events === null) throw new Error('fixture');
    const reason = { code: 'CHANNEL_MISSING', text: 'There is no suction pressure.' };
    const events = { ...dryLift.events, firstSuction: { seen: false, reason } } as const;
    expect(dryLiftText({ dryLift: { ...dryLift, events } })).toContain(
      '  first suction             not seen. There is no suction pressure.',
    );
    expect(dryLiftText({ dryLift: { ...dryLift, events: null } })[1]).toMatch(/^Estimated: /);
  });

  it('says nothing of an estimate that was refused: its finding does', () => {
    if (dryLift === null) throw new Error('fixture');
    const estimate = { ok: false, reason: { code: 'NO_SUCTION', text: 'The suction hardly fell.' } } as const;
    expect(dryLiftText({ dryLift: { ...dryLift, estimate } })).toHaveLength(6);
    expect(dryLiftText({ dryLift: null })).toEqual([]);
  });
});
