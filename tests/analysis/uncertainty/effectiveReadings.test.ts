import { describe, expect, it } from 'vitest';
import {
  autocorrelation,
  effectiveCount,
  effectiveReadingCount,
  varianceOfMean,
} from '../../../analysis/uncertainty/effectiveReadings.ts';
import { lew } from '../../reference/nist-lew.ts';
import { mavro } from '../../reference/nist-mavro.ts';
import { numAcc1 } from '../../reference/nist-numAcc1.ts';
import { numAcc3 } from '../../reference/nist-numAcc3.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';

describe('autocorrelation', () => {
  it('reproduces the certified lag-1 values of NIST', () => {
    // NIST Statistical Reference Datasets, univariate: Lew, Mavro, NumAcc1, NumAcc3.
    for (const { values, certifiedLag1Autocorrelation } of [lew, mavro, numAcc1, numAcc3]) {
      expectRelative(autocorrelation(values, 1), certifiedLag1Autocorrelation, 1e-9);
    }
  });

  it('is one at lag zero and nothing for a series that never changes', () => {
    expect(autocorrelation([1, 2, 4], 0)).toBe(1);
    expect(autocorrelation([3, 3, 3], 1)).toBe(0);
  });
});

describe('effectiveReadingCount', () => {
  it('sums positive autocorrelations by hand', () => {
    // By hand for 1, 2, 3, 4: mean 2.5, deviations −1.5, −0.5, 0.5, 1.5, Σ d² = 5; lag 1: (0.75 − 0.25 + 0.75)/5 = 0.25;
    // lag 2: (−0.75 − 0.75)/5 < 0 ends the sum. n_eff = 4/(1 + 2 · 3/4 · 0.25) = 4/1.375.
    expectRelative(effectiveReadingCount([1, 2, 3, 4]), 4 / 1.375, 1e-12);
  });

  it('counts every reading of a series that swings about its mean, and no more', () => {
    // Lew has a negative lag-1 autocorrelation (NIST), so the sum is empty.
    expect(effectiveReadingCount(lew.values)).toBe(200);
  });

  it('agrees with the known worth of a first-order autoregressive series (seeds 1 to 5)', () => {
    // Closed form for large n: ρ_k = a^k, n_eff/n → (1 − a)/(1 + a) = 1/9 for a = 0.8.
    const count = 200_000;
    for (let seed = 1; seed <= 5; seed += 1) {
      const next = normal(seed);
      const values = new Float64Array(count);
      for (let index = 1; index < count; index += 1) values[index] = 0.8 * (values[index - 1] ?? 0) + next();
      // 15 %: by Bartlett's formula Σ ρ_k summed over M lags has a relative standard error of √(2 (2 M + 1)/n), 3 to 4 %
      // for the some sixty lags before the first non-positive one.
      expectRelative(effectiveReadingCount(values), count / 9, 0.15);
    }
  });

  it('counts a frozen value as one reading, and stays between one and all', () => {
    expect(effectiveReadingCount([7, 7, 7, 7])).toBe(1);
    expect(effectiveReadingCount([7])).toBe(1);
    // A step: the two halves repeat themselves, so that it is worth little more than one.
    const step = Array.from({ length: 100 }, (_, index) => (index < 50 ? 0 : 1));
    expect(effectiveReadingCount(step)).toBeGreaterThanOrEqual(1);
    expect(effectiveReadingCount(step)).toBeLessThan(4);
  });
});

describe('varianceOfMean', () => {
  it('is the variance over the number where nothing is remembered, as by hand', () => {
    // By hand for 1, −1, 1, −1: mean 0, Σ d²/n = 1, lag 1 is negative, so 1/4.
    expect(varianceOfMean([1, -1, 1, -1])).toBe(0.25);
    expect(varianceOfMean([5, 5, 5])).toBe(0);
  });

  it('is that of the known worth of a long memory, though neighbours are averaged in pairs (seeds 1 to 20)', () => {
    // Closed form for large n: σ²/n · (1 + a)/(1 − a), with σ² = 1/(1 − a²); a = 0.98: 99 readings make one. By Bartlett one
    // estimate scatters by 20 to 30 %, the mean of 20 by 7 %; the cut at the first non-positive lag takes a little.
    const [count, kept] = [20_000, 0.98];
    let sum = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      const next = normal(seed);
      const values = new Float64Array(count);
      values[0] = next() / Math.sqrt(1 - kept ** 2);
      for (let index = 1; index < count; index += 1) values[index] = kept * (values[index - 1] ?? 0) + next();
      sum += varianceOfMean(values);
    }
    expectRelative(sum / 20, 1 / (1 - kept) ** 2 / count, 0.2);
  });
});

describe('effectiveCount', () => {
  it('is the variance of the readings over that of their mean, from one to all', () => {
    expect(effectiveCount(100, 4, 0.1)).toBe(40);
    expect(effectiveCount(100, 4, 0.01)).toBe(100);
    expect(effectiveCount(100, 4, 8)).toBe(1);
    expect(effectiveCount(100, 4, 0)).toBe(100);
    expect(effectiveCount(100, 0, 0)).toBe(1);
    expect(effectiveCount(1, 4, 4)).toBe(1);
  });
});
