import { describe, expect, it } from 'vitest';
import { dryLiftText } from '../../../rig/commandLine/dryLiftText.ts';
import { dryLiftRun } from '../../support/certificateRuns.ts';
import { INVENTED_DIAGNOSIS } from '../../support/inventedDiagnosis.ts';

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

  it('says why a pump did not prime, with the suction it came to and the hold of the pipe', () => {
    if (dryLift === null) throw new Error('fixture');
    const value = { primed: false, motorStartS: 4.02, watchedForS: 20.04 } as const;
    const lines = dryLiftText({ dryLift: { ...dryLift, priming: { ok: true, value }, diagnosis: INVENTED_DIAGNOSIS } });
    expect(lines.slice(0, 4)).toEqual([
      'Not proven: no oil had come from 0.450 m at 599 r/min, in class W1, 20.0 s after motor start.',
      'The suction came to 1.900 ± 0.060 kPa in 20.0 s, and carries 0.2230 ± 0.0080 m of this oil.',
      'Most likely: The suction pipe leaks. Sign: It lost its suction.',
      'The suction pipe by itself leaks: of 2.00 kPa were left 0.03 kPa after 10 s.',
    ]);
  });

  it('says between which causes it cannot be told', () => {
    if (dryLift === null) throw new Error('fixture');
    const cause = {
      told: false,
      code: 'LEAKS_ALIKE',
      text: 'Plug the relief valve.',
      sign: 'At rest at 1.9 kPa.',
      candidates: ['pumpDoesNotSeal', 'reliefNotSeating'],
    } as const;
    const lines = dryLiftText({ dryLift: { ...dryLift, diagnosis: { ...INVENTED_DIAGNOSIS, cause, hold: null } } });
    expect(lines[2]).toBe(
      'The cause cannot be told. Plug the relief valve. It may be that the pump does not seal, or the relief valve does not seat. Sign: At rest at 1.9 kPa.',
    );
    expect(lines[3]).toMatch(/^ {2}motor starts/);
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
