import { describe, expect, it } from 'vitest';
import { trendOverStarts } from '../../../../analysis/dryLift/series/trendOverStarts.ts';
import { normal } from '../../../support/random.ts';

describe('the trend of priming times over a series', () => {
  it('is worked out by hand for four starts', () => {
    // ln t = 0, −0.1, −0.1, −0.2: slope −0.06 a start, residuals 0.01, −0.03, 0.03, −0.01, s² = 0.002/2, Σ(x − x̄)² = 5, so that
    // s_b = √(0.001/5) = 0.0141421, t = 4.2426 with two degrees of freedom: 2 P(T < −t) = 1 − t/√(2 + t²) = 0.051317.
    const trend = trendOverStarts([0, -0.1, -0.1, -0.2].map(Math.exp));
    if (trend.verdict === 'too few') throw new Error('four are enough');
    expect(trend.changePerStart.value).toBeCloseTo(Math.exp(-0.06) - 1, 9);
    expect(trend.byChance).toBeCloseTo(0.051317, 6);
    expect(trend.verdict).toBe('no sign');
  });

  it('is seen where the pump gets wetter and faster, and where it gets slower', () => {
    expect(trendOverStarts([5, 4.6, 4.1, 3.8, 3.4]).verdict).toBe('faster');
    expect(trendOverStarts([3.4, 3.8, 4.1, 4.6, 5]).verdict).toBe('slower');
  });

  it('is told of five starts without any in about one series of twenty, seeds 1 to 400', () => {
    let seen = 0;
    for (let seed = 1; seed <= 400; seed += 1) {
      const noise = normal(seed);
      const trend = trendOverStarts(Array.from({ length: 5 }, () => 4 * Math.exp(0.05 * noise())));
      if (trend.verdict !== 'no sign') seen += 1;
    }
    // 20 are expected, standard deviation 4.4.
    expect(seen).toBeGreaterThan(5);
    expect(seen).toBeLessThan(37);
  });

  it('needs four starts', () => {
    expect(trendOverStarts([4, 3, 2])).toEqual({ verdict: 'too few', needed: 4 });
  });
});
