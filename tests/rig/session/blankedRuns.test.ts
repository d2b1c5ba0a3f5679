import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import { createPracticeBench } from '../../../rig/practiceBench/createPracticeBench.ts';
import { mountCommand } from '../../../rig/session/practiceCommands.ts';
import { PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { recordPractice } from '../../support/practiceRun.ts';
import { samplePump } from '../../support/samples.ts';

describe('a guided blanked run on the practice bench', () => {
  it.each(['externalGear', 'screw'] as const)(
    'shuts the suction, takes two speeds and tells the limit at the faster one (%s, seed 31)',
    (pump) => {
      const { run, decoded, bench } = recordPractice('blanked', 'healthy', 31, { pump, lookEveryS: 0.5 });
      const { readings, census } = decoded;
      const { dryLift, findings } = analyseRun({ run, readings, census, isPractice: true, exclusions: [] });
      if (dryLift === null || !dryLift.estimate.ok) throw new Error('nothing was estimated');
      const { starts, limits, identified } = dryLift.estimate.value;
      expect(starts.map(({ kind }) => kind)).toEqual(['blanked', 'blanked']);
      expect(identified).toMatchObject({ leakBack: 'told', carryOver: 'told' });
      const [fastest] = limits;
      const { limitM } = bench.truth().dryLift;
      expect(fastest?.limitM.lower).toBeLessThan(limitM);
      expect(fastest?.limitM.upper).toBeGreaterThan(limitM);
      // Its suction is back at the atmosphere before the second start.
      expect(findings.map(({ code }) => code)).not.toContain('BAROMETER_CONTRADICTS_SUCTION');
    },
  );

  it('stops a bone-dry pump that never primes after ten seconds (seed 32)', () => {
    const runSetUp = { ...PRACTICE_RUN_SET_UP, wetness: 'W0' } as const;
    const { run, decoded } = recordPractice('dryLift', 'unprimable', 32, { runSetUp, lookEveryS: 0.5 });
    const { readings, census } = decoded;
    const { dryLift } = analyseRun({ run, readings, census, isPractice: true, exclusions: [] });
    if (dryLift === null || !dryLift.priming.ok || dryLift.priming.value.primed) throw new Error('it primed');
    // Ten seconds and a look every half second; the motor runs down within the recorded tail of one second.
    expect(dryLift.priming.value.watchedForS).toBeGreaterThan(10);
    expect(dryLift.priming.value.watchedForS).toBeLessThan(13);
  });
});

describe('the pump that stands on the practice bench', () => {
  it('is the one of the record that a run is of', () => {
    const bench = createPracticeBench({ seed: 33, scenario: 'healthy' });
    bench.command('flood');
    bench.command(mountCommand(samplePump('dredger-return-pump')));
    // Two screws of two starts, 42 cm³ a turn as the parts list of the invented pump says.
    expect(bench.truth().pump.kind).toBe('screw');
    expect(bench.truth().sweptVolumeM3PerRev).toBe(42e-6);
    expect(bench.state().isLineFull).toBe(false);
    bench.command(mountCommand(samplePump('dredger-feed-pump')));
    expect(bench.truth().pump.kind).toBe('externalGear');
  });

  it('is told apart from a word that is none', () => {
    const bench = createPracticeBench({ seed: 34, scenario: 'healthy' });
    bench.command('pump piston');
    expect(bench.step(0.001).join('')).toContain('expected pump externalGear, screw, internalGear');
    expect(bench.truth().pump.kind).toBe('externalGear');
  });
});
