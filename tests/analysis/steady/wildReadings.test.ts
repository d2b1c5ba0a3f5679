import { describe, expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import { stretchSums } from '../../../analysis/steady/stretchSums.ts';
import { EVERYTHING, reachOf, steadyMean } from '../../../analysis/steady/wildReadings.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal, uniform } from '../../support/random.ts';

const NO_LIMIT = (): number => 0;

function column(values: readonly number[]) {
  return { values: Float64Array.from(values), quality: new Uint8Array(values.length).fill(QUALITY.good) };
}

function wildCountOf(values: readonly number[], limitAt = NO_LIMIT): number {
  const { values: all, quality } = column(values);
  const sums = stretchSums(all, quality, 0, all.length);
  const reach = reachOf(all, quality, 0, all.length, sums, limitAt);
  return reach === EVERYTHING ? 0 : values.filter((value) => Math.abs(value - reach.centre) > reach.half).length;
}

describe('steadyMean', () => {
  it('leaves single wild readings out, one in ten of them far off (seed 1)', () => {
    const noise = normal(1);
    const clean = Array.from({ length: 400 }, () => 10 + 0.1 * noise());
    const spoilt = clean.map((value, index) => (index % 10 === 3 ? 1e6 : value));
    const kept = clean.filter((_, index) => index % 10 !== 3);
    // The mean of those that were not spoilt, by its definition.
    const expected = kept.reduce((sum, value) => sum + value, 0) / kept.length;
    expectRelative(steadyMean(column(spoilt), 0, 400, NO_LIMIT), expected, 1e-12);
  });

  it('is moved by wild readings when they are more than one in eight: that is how the channel behaves', () => {
    const halfAway = Array.from({ length: 100 }, (_, index) => (index % 5 === 0 ? 20 : 10 + (index % 3) * 0.01));
    expect(steadyMean(column(halfAway), 0, 100, NO_LIMIT)).toBeGreaterThan(11.9);
  });

  it('never calls a reading wild that lies within the stillness limit', () => {
    // A coarse channel: all readings the same but one, a step off.
    const coarse = Array.from({ length: 40 }, (_, index) => (index === 7 ? 318.1 : 318));
    expect(wildCountOf(coarse, () => 0.5)).toBe(0);
    expectRelative(
      steadyMean(column(coarse), 0, 40, () => 0.5),
      318 + 0.1 / 40,
      1e-12,
    );
  });

  it('cannot tell the wild one of four readings, and can of five', () => {
    expect(wildCountOf([1, 1.1, 0.9, 50])).toBe(0);
    expect(wildCountOf([1, 1.1, 0.9, 1, 1.1, 0.9, 1, 50])).toBe(1);
  });

  it('is no number where less than half of the stretch is good', () => {
    const { values, quality } = column([1, 1, 1, 1]);
    quality.fill(QUALITY.missing, 0, 3);
    expect(steadyMean({ values, quality }, 0, 4, NO_LIMIT)).toBeNaN();
    quality[0] = QUALITY.good;
    expect(steadyMean({ values, quality }, 0, 4, NO_LIMIT)).toBe(1);
  });

  it('leaves bad readings out, wherever they stand (seeds 1 to 50)', () => {
    for (let seed = 1; seed <= 50; seed += 1) {
      const next = uniform(seed);
      const values = Array.from({ length: 30 }, () => 5 + next());
      const good = values.map(() => next() > 0.3);
      const spoilt = column(values.map((value, index) => (good[index] ? value : Number.NaN)));
      spoilt.quality.set(good.map((isGood) => (isGood ? QUALITY.good : QUALITY.missing)));
      const kept = values.filter((_, index) => good[index]);
      if (2 * kept.length < 30) continue;
      const expected = kept.reduce((sum, value) => sum + value, 0) / kept.length;
      expectRelative(steadyMean(spoilt, 0, 30, NO_LIMIT), expected, 1e-12);
    }
  });
});

describe('reachOf', () => {
  it('calls a reading of a healthy normal stretch wild in about one stretch of a thousand (seed 2)', () => {
    // Derived with the reach: below 1/1000 a stretch, more where the scatter rests on few readings. Of 2000 stretches 2 are
    // expected; 9 and more have a probability below 0.1 % (Poisson).
    const noise = normal(2);
    for (const size of [25, 500]) {
      let count = 0;
      for (let stretch = 0; stretch < 2000; stretch += 1) {
        if (wildCountOf(Array.from({ length: size }, noise)) > 0) count += 1;
      }
      expect(count).toBeLessThanOrEqual(8);
    }
  });

  it('does not move the mean to one side: what it keeps of normal readings is centred (seed 3)', () => {
    // 400 means of 50 readings scatter by 1/√50; their mean lies within 3.29 × 1/√20000 with 99.9 %.
    const noise = normal(3);
    let sum = 0;
    for (let stretch = 0; stretch < 400; stretch += 1) {
      sum += steadyMean(column(Array.from({ length: 50 }, noise)), 0, 50, NO_LIMIT);
    }
    expect(Math.abs(sum / 400)).toBeLessThanOrEqual(3.29 / Math.sqrt(20_000));
  });
});
