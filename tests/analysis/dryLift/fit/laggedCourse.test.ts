import { describe, expect, it } from 'vitest';
import { laggedCourse } from '../../../../analysis/dryLift/fit/laggedCourse.ts';
import { expectRelative } from '../../../support/expectRelative.ts';

describe('what an instrument of one lag shows', () => {
  it('follows a steady rise by its lag', () => {
    // x(t) = t: shown t − τ.
    const shown = laggedCourse((timesS) => timesS, [1, 2], 0.25);
    expectRelative(shown[0] ?? 0, 0.75, 1e-9);
    expectRelative(shown[1] ?? 0, 1.75, 1e-9);
  });

  it('shows a parabola as (t − τ)² + τ²', () => {
    // ∫ e^(−u) (t − τ u)² du = t² − 2 τ t + 2 τ².
    const shown = laggedCourse((timesS) => timesS.map((timeS) => timeS * timeS), [3], 0.5);
    expectRelative(shown[0] ?? 0, 2.5 ** 2 + 0.25, 1e-9);
  });

  it('enlarges a decay by 1/(1 − τ/T)', () => {
    // ∫ e^(−u) e^(−(t − τ u)/T) du = e^(−t/T)/(1 − τ/T) for τ < T.
    const shown = laggedCourse((timesS) => timesS.map((timeS) => Math.exp(-timeS)), [1], 0.1);
    expectRelative(shown[0] ?? 0, Math.exp(-1) / 0.9, 1e-5);
  });

  it('shows the course itself without a lag', () => {
    expect([...laggedCourse((timesS) => timesS, [1, 4], 0)]).toEqual([1, 4]);
  });
});
