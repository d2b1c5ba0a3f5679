import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import type { RunKind } from '../../../analysis/records/runRecord.ts';
import type { RunResult } from '../../../analysis/result.ts';
import type { PracticeTruth } from '../../../rig/practiceBench/practiceTruth.ts';
import type { PracticeScenario } from '../../../rig/practiceBench/pumpTruth.ts';
import { recordPractice, type TrueMoment } from '../../support/practiceRun.ts';
import { expectWithinStated } from '../../support/withinStated.ts';

/** Any seeds do; SLIPWRIGHT_SEED moves them all. */
const FIRST_SEED = Number(process.env.SLIPWRIGHT_SEED ?? 4100);

type Measured = {
  readonly result: RunResult;
  readonly truth: PracticeTruth;
  readonly trueMoments: readonly TrueMoment[];
};

function measured(kind: RunKind, scenario: PracticeScenario, seed: number): Measured {
  const { run, decoded, bench, trueMoments } = recordPractice(kind, scenario, seed, {
    lookEveryS: kind === 'delivery' ? 1 : 0.1,
  });
  const { readings, census, isPractice } = decoded;
  return {
    result: analyseRun({ run, readings, census, isPractice, exclusions: [] }),
    truth: bench.truth(),
    trueMoments,
  };
}

function verdictOf(result: RunResult, id: string): string | undefined {
  return result.verdicts.find(({ demand }) => demand.id === id)?.verdict;
}

function lawOf(result: RunResult) {
  const law = result.delivery?.law;
  if (law === undefined || !law.ok) throw new Error(law?.reason.code ?? 'no delivery');
  return law.value;
}

/** Largest difference between measured and true q/(V_i n), over the holds: the mean of what really flowed and turned in each. */
function largestEfficiencyError({ result, truth, trueMoments }: Measured): number {
  const errors = (result.delivery?.holds ?? []).map(({ startS, endS, derivedEfficiency }) => {
    const during = trueMoments.filter(({ atS }) => atS >= startS && atS <= endS);
    const sumOf = (value: (moment: TrueMoment) => number): number =>
      during.reduce((sum, moment) => sum + value(moment), 0);
    const trueEfficiency =
      sumOf(({ flowM3PerS }) => flowM3PerS) /
      (truth.derivedCapacityM3PerRev * sumOf(({ speedRevPerS }) => speedRevPerS));
    return Math.abs((derivedEfficiency?.value ?? Number.NaN) - trueEfficiency);
  });
  return Math.max(...errors);
}

describe(`the analysis against the truth of practice benches (seeds from ${FIRST_SEED})`, () => {
  // How often intervals hold the truth is judged over more benches, with their oil and barometer off as well, beside
  // what breaks it when an error is planted.
  it('passes healthy pumps, with their efficiency within 0.01', () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + 4; seed += 1) {
      const run = measured('delivery', 'healthy', seed);
      expect(largestEfficiencyError(run)).toBeLessThan(0.01);
      expect(verdictOf(run.result, 'feed-flow')).toBe('pass');
      expect(verdictOf(run.result, 'efficiency')).toBe('pass');
    }
  }, 120_000);

  it('fails worn pumps, with their efficiency within 0.01', () => {
    for (const seed of [FIRST_SEED + 20, FIRST_SEED + 21, FIRST_SEED + 22]) {
      const run = measured('delivery', 'worn', seed);
      const { result, truth } = run;
      expectWithinStated(lawOf(result).stated.derivedCapacityM3PerRev, truth.derivedCapacityM3PerRev);
      expect(largestEfficiencyError(run)).toBeLessThan(0.01);
      expect(verdictOf(result, 'feed-flow')).toBe('fail');
      expect(verdictOf(result, 'efficiency')).toBe('fail');
      expect(result.outcome).toBe('fail');
    }
  }, 120_000);

  it('times dry starts within 0.1 s or the stated interval, healthy and worn', () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + 12; seed += 1) {
      const { result, truth } = measured('dryLift', seed % 2 === 0 ? 'healthy' : 'worn', seed);
      const priming = result.dryLift?.priming;
      if (priming === undefined || !priming.ok || !priming.value.primed) throw new Error('not primed');
      const { value, expandedUncertainty } = priming.value.primingTimeS;
      const error = Math.abs(value - (truth.priming.primingTimeS ?? Number.NaN));
      expect(error).toBeLessThanOrEqual(Math.max(0.1, expandedUncertainty));
      expect(verdictOf(result, 'priming')).toBe('pass');
    }
  });

  it('never calls a pump primed that cannot prime, and fails it', () => {
    for (let seed = FIRST_SEED; seed < FIRST_SEED + 6; seed += 1) {
      const { result, truth } = measured('dryLift', 'unprimable', seed);
      expect(truth.priming.primedAtS).toBeNull();
      const priming = result.dryLift?.priming;
      expect(priming?.ok && priming.value.primed).toBe(false);
      expect(verdictOf(result, 'priming')).toBe('fail');
    }
  });
});
