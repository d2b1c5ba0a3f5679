import { describe, expect, it } from 'vitest';
import { type MountedValue, reproducibility } from '../../../analysis/notSlip/reproducibility.ts';
import type { Source } from '../../../analysis/uncertainty/source.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';

const source = (id: string, kind: Source['kind'], standardUncertainty: number): Source => ({
  id,
  label: id,
  kind,
  standardUncertainty,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
});

/** A value whose scatter is `random` and whose calibration, the same in all runs, is far larger. */
function run(mounting: number, value: number, random: number): MountedValue {
  const sources = {
    'hold.1.flow': source('hold.1.flow', 'random', random),
    'flow.gain': source('flow.gain', 'calibration', 0.01),
  };
  return { mounting, value: { value, sensitivities: { 'hold.1.flow': 1, 'flow.gain': -value } }, sources };
}

function known(runs: readonly MountedValue[]) {
  const read = reproducibility(runs);
  if (!read.known) throw new Error(read.text);
  return read;
}

describe('reproducibility', () => {
  it('is worked by hand for two runs in each of three mountings', () => {
    // Means 10.1, 10.3, 9.8; within: (4 × 0.1² + 2 × 0.2²)/3 = 0.04; grand mean 10.0667;
    // between: 2 (0.0333² + 0.2333² + 0.2667²)/2 = 0.126667; s_L² = (0.126667 − 0.04)/2 = 0.0433333.
    const { value } = known([
      run(1, 10.0, 0),
      run(1, 10.2, 0),
      run(2, 10.2, 0),
      run(2, 10.4, 0),
      run(3, 9.6, 0),
      run(3, 10.0, 0),
    ]);
    expectRelative(value.withinMounting, 0.2, 1e-9);
    expectRelative(value.betweenMountings, Math.sqrt(0.0433333333333), 1e-9);
    expect(value.withinFrom).toBe('repeated runs');
    expect(value.source).toMatchObject({ id: 'run.mounting', kind: 'random', degreesOfFreedom: 2 });
    expectRelative(value.source.standardUncertainty, value.betweenMountings, 1e-12);
  });

  it('weighs mountings by their runs, worked by hand for one run and two', () => {
    // Mounting 1: 10; mounting 2: 11 and 13. Within: (1 + 1)/1 = 2. Grand mean 34/3; between: (4/3)² + 2 (2/3)² = 8/3.
    // k̄ = (3 − (1 + 4)/3)/1 = 4/3; s_L² = (8/3 − 2)/(4/3) = 0.5.
    const { value } = known([run(1, 10, 0), run(2, 11, 0), run(2, 13, 0)]);
    expectRelative(value.betweenMountings, Math.sqrt(0.5), 1e-9);
  });

  it('takes the stated scatter where no mounting has two runs, and no calibration into it', () => {
    // Variance of 10, 10.3, 10.6: 0.09; scatter 0.1² = 0.01: s_L² = 0.08.
    const { value } = known([run(1, 10, 0.1), run(2, 10.3, 0.1), run(3, 10.6, 0.1)]);
    expect(value.withinFrom).toBe('stated scatter');
    expectRelative(value.withinMounting, 0.1, 1e-9);
    expectRelative(value.betweenMountings, Math.sqrt(0.08), 1e-9);
  });

  it('says that mountings scatter no more than runs where the difference comes out negative', () => {
    const read = known([run(1, 10, 0.5), run(2, 10.1, 0.5)]);
    expect(read.value.betweenMountings).toBe(0);
    expect(read.text).toContain('no more than runs do within one');
  });

  it('finds the planted components on the average over 400 pumps, seed 71', () => {
    const next = normal(71);
    let sumOfVariances = 0;
    for (let pump = 0; pump < 400; pump += 1) {
      const runs = [1, 2, 3, 4, 5].flatMap((mounting) => {
        const off = 2 * next();
        return [run(mounting, 100 + off + next(), 0), run(mounting, 100 + off + next(), 0)];
      });
      sumOfVariances += known(runs).value.betweenMountings ** 2;
    }
    // s_L² has mean 4 and standard deviation about √(2/4) × 4.5 = 3.2 per pump, 0.16 over 400: four of these.
    expect(Math.abs(sumOfVariances / 400 - 4)).toBeLessThan(0.64);
  });

  it('is not known from one mounting, and says so', () => {
    const read = reproducibility([run(1, 10, 0.1), run(1, 10.1, 0.1)]);
    expect(read).toMatchObject({ known: false, code: 'ONE_MOUNTING' });
    expect(read.text).toContain('is not known');
    expect(() => reproducibility([])).toThrow(RangeError);
  });
});
