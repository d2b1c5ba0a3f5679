import { describe, expect, it } from 'vitest';
import { againstEarlier, type PumpRun } from '../../../analysis/againstTheory/againstEarlier.ts';
import type { Source } from '../../../analysis/uncertainty/source.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const GAIN: Source = {
  id: 'flow.gain',
  label: 'flow meter, gain',
  kind: 'calibration',
  standardUncertainty: 0.003,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
};

const SCATTER: Source = {
  ...GAIN,
  id: 'fit.1',
  label: 'scatter',
  kind: 'random',
  standardUncertainty: 1,
  pooledAs: 'fit',
};

type Changes = {
  readonly gain?: Partial<Source>;
  readonly reference?: string | null;
  readonly slipM3PerS?: number | null;
};

/** A run of 14 cm³ whose scatter is 0.01 cm³ and whose gain acts in full. */
function runOf(
  runId: string,
  capacityM3PerRev: number,
  { gain = {}, reference = 'a', slipM3PerS = null }: Changes = {},
): PumpRun {
  return {
    runId,
    label: `run ${runId}`,
    derivedCapacityM3PerRev: {
      value: capacityM3PerRev,
      sensitivities: { 'flow.gain': -capacityM3PerRev, 'fit.1': 0.01e-6 },
    },
    slipAtDutyM3PerS: slipM3PerS === null ? null : { value: slipM3PerS, sensitivities: { 'fit.1': 1e-7 } },
    sources: sourceTable([{ ...GAIN, ...gain }, SCATTER]),
    referenceOf: () => reference,
  };
}

const NOW = runOf('now', 14e-6, { slipM3PerS: 2e-5 });

function against(then: PumpRun) {
  const [found] = againstEarlier(NOW, [then]);
  if (found === undefined) throw new Error('no comparison');
  return found;
}

describe('a run against an earlier one', () => {
  it('cancels the gain of one calibration that was in force in both, and adds the scatter of each', () => {
    // By hand: of the gain 0.003 · (14 − 13.9) cm³ is left; the scatter of each run is its own: 0.01 √2 cm³.
    const { derivedCapacityM3PerRev, sharedSourceIds } = against(runOf('then', 13.9e-6));
    expectRelative(derivedCapacityM3PerRev.difference.value, 0.1e-6, 1e-6);
    expectRelative(
      derivedCapacityM3PerRev.difference.standardUncertainty,
      Math.hypot(0.003 * 0.1e-6, 0.01e-6 * Math.SQRT2),
      1e-6,
    );
    expect(sharedSourceIds).toEqual(['flow.gain']);
    expect(derivedCapacityM3PerRev.agrees).toBe(false);
  });

  it.each([
    ['another calibration', { reference: 'b' }],
    ['nobody knows which calibration', { reference: null }],
    ['another uncertainty under the same name', { gain: { standardUncertainty: 0.0031 } }],
    ['another shape under the same name', { gain: { shape: 'rectangular' } }],
  ] as const)('counts the gain twice after %s', (_, changes) => {
    const { derivedCapacityM3PerRev, sharedSourceIds } = against(runOf('then', 13.9e-6, changes));
    const then = 'gain' in changes && 'standardUncertainty' in changes.gain ? 0.0031 : 0.003;
    // By hand: √((0.003 · 14)² + (u · 13.9)² + 2 · 0.01²) cm³.
    const byHand = Math.hypot(0.003 * 14e-6, then * 13.9e-6, 0.01e-6 * Math.SQRT2);
    expectRelative(derivedCapacityM3PerRev.difference.standardUncertainty, byHand, 1e-9);
    expect(sharedSourceIds).toEqual([]);
    expect(derivedCapacityM3PerRev.agrees).toBe(true);
  });

  it('names the other run’s errors by that run', () => {
    const { derivedCapacityM3PerRev } = against(runOf('then', 13.9e-6, { reference: 'b' }));
    expect(derivedCapacityM3PerRev.difference.budget.map(({ sourceId }) => sourceId)).toEqual(
      expect.arrayContaining(['flow.gain', 'then.flow.gain', 'fit', 'then.fit']),
    );
    expect(derivedCapacityM3PerRev.difference.budget.map(({ label }) => label)).toContain(
      'flow meter, gain (run then)',
    );
  });

  it('compares slip at the duty where both runs have it', () => {
    // By hand: 2e-5 − 1.5e-5 with 1e-7 √2.
    const both = against(runOf('then', 14e-6, { slipM3PerS: 1.5e-5 })).slipAtDutyM3PerS;
    expectRelative(both?.difference.value ?? 0, 5e-6, 1e-9);
    expectRelative(both?.difference.standardUncertainty ?? 0, 1e-7 * Math.SQRT2, 1e-9);
    expect(against(runOf('then', 14e-6)).slipAtDutyM3PerS).toBeNull();
  });

  it('keeps the order it is given, and has nothing to say of none', () => {
    const runs = [runOf('b', 14e-6), runOf('a', 13.9e-6)];
    expect(againstEarlier(NOW, runs).map(({ runId }) => runId)).toEqual(['b', 'a']);
    expect(againstEarlier(NOW, [])).toEqual([]);
  });
});
