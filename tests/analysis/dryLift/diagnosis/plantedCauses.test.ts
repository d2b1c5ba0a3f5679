import { describe, expect, it } from 'vitest';
import type { Cause } from '../../../../analysis/dryLift/diagnosis/causes.ts';
import { diagnoseStart, type NoPrimingDiagnosis } from '../../../../analysis/dryLift/diagnosis/diagnoseStart.ts';
import { diagnosisWords } from '../../../../analysis/dryLift/diagnosisWords.ts';
import { findStartEvents } from '../../../../analysis/dryLift/events/findStartEvents.ts';
import { sourceTable } from '../../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../../analysis/uncertainty/stateUncertainty.ts';
import { binomialBelow } from '../../../coverage/coverage.ts';
import { accepted } from '../../../support/accepted.ts';
import { PLANTED_CAUSES, plantedCause } from '../../../support/plantedCause.ts';
import type { WatchedStart } from '../../../support/watchedStart.ts';

const COUNT = 2;
const FIRST_SEED = 6400;
const RARE = 1e-3;
const MOST_WRONG = 0.05;
const MOST_UNTOLD = 0.3;

function diagnosed({ run, readings, bench }: WatchedStart): NoPrimingDiagnosis {
  const { sweptVolumeM3PerRev } = bench.truth();
  const events = accepted(findStartEvents(run, readings, sweptVolumeM3PerRev));
  if (events.sustainedDelivery.seen) throw new Error(`${run.id} primed`);
  return diagnoseStart(run, readings, events, sweptVolumeM3PerRev);
}

// Ten of each cause: `npm run coverage:causes 10 SEED`.
describe(`starts that fail for one planted cause, ${COUNT} of each, seeds ${FIRST_SEED} on`, () => {
  const starts = PLANTED_CAUSES.flatMap((planted) =>
    Array.from({ length: COUNT }, (_, index) => ({ planted, start: plantedCause(planted, FIRST_SEED + index) })),
  );
  const judged = starts.map(({ planted, start }) => ({ planted, start, diagnosis: diagnosed(start) }));

  it('are told by their cause, with the sign it was read from: wrong in at most 5 %, left open in at most 30 %', () => {
    const wrong = judged.filter(({ planted, diagnosis: { cause } }) => cause.told && cause.code !== planted);
    const untold = judged.filter(({ diagnosis: { cause } }) => !cause.told);
    const { length } = judged;
    expect(binomialBelow(length - wrong.length, length, 1 - MOST_WRONG)).toBeGreaterThan(RARE);
    expect(binomialBelow(length - untold.length, length, 1 - MOST_UNTOLD)).toBeGreaterThan(RARE);
    for (const { diagnosis } of judged) expect(diagnosis.cause.sign).toMatch(/\d|repeats|not vented/);
  });

  it('say what suction they came to, and what lift it carries', () => {
    for (const { planted, start, diagnosis } of judged) {
      // Where it comes to rest the bench knows the balance; elsewhere the column still moves, or none is there.
      if (planted !== 'pumpDoesNotSeal') continue;
      const { ultimateSuctionPa, sources } = diagnosis;
      const channelSources = start.run.bench.channels.map(({ channel }) => channel);
      expect(channelSources).toContain('suctionPressure');
      if (ultimateSuctionPa === null) throw new Error('no suction');
      const { balancePressurePa } = start.bench.truth().dryLift;
      const truePa = start.run.setUp.barometerPa.value - balancePressurePa;
      const known = Object.fromEntries(
        Object.entries(ultimateSuctionPa.sensitivities).filter(([id]) => sources.some((source) => source.id === id)),
      );
      const scatterPa = stateUncertainty(
        { value: ultimateSuctionPa.value, sensitivities: known },
        sourceTable(sources),
      ).standardUncertainty;
      // Gain of the channel 0.05 %, twice over, and the last per cent of the way to rest.
      expect(Math.abs(ultimateSuctionPa.value - truePa)).toBeLessThan(4 * scatterPa + 0.015 * truePa + 5);
    }
  });
});

describe('a start whose cause is open', () => {
  const causeWithout = (planted: (typeof PLANTED_CAUSES)[number], change: object): Cause => {
    const start = plantedCause(planted, 6450);
    return diagnosed({ ...start, run: { ...start.run, setUp: { ...start.run.setUp, ...change } } }).cause;
  };

  it('convicts neither pipe nor pump without a hold of the pipe', () => {
    for (const planted of ['pumpDoesNotSeal', 'suctionPipeLeak'] as const) {
      expect(causeWithout(planted, { endsWithPipeHold: false })).toMatchObject({
        told: false,
        code: 'HOLD_TEST_NEEDED',
        candidates: expect.arrayContaining(['pumpDoesNotSeal', 'suctionPipeLeak']),
      });
    }
  });

  it('is not told without a suction channel, and says so in words', () => {
    const start = plantedCause('pipeBlocked', 6451);
    const { suctionPressure: _suction, ...channels } = start.readings.channels;
    const diagnosis = diagnosed({ ...start, readings: { ...start.readings, channels } });
    expect(diagnosis.cause).toMatchObject({ told: false, code: 'NO_SUCTION_CHANNEL' });
    const stated = { ...diagnosis, ultimateSuctionPa: null, liftCarriedM: null };
    expect(diagnosisWords(stated)[0]).toMatch(/^No oil came in \d+\.\d s; no suction pressure was read\.$/);
    expect(diagnosisWords(stated)[1]).toMatch(/^The cause cannot be told\./);
  });
});
