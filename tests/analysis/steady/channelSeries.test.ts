import { describe, expect, it } from 'vitest';
import { QUALITY } from '../../../analysis/readings.ts';
import { channelSeries } from '../../../analysis/steady/channelSeries.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';

const NO_LIMIT = (): number => 0;

function seriesOf(values: readonly number[], bad: readonly number[] = []) {
  const quality = new Uint8Array(values.length).fill(QUALITY.good);
  for (const index of bad) quality[index] = QUALITY.missing;
  const elapsedS = Float64Array.from(values, (_, index) => index / 10);
  const column = {
    values: Float64Array.from(values, (value, index) => (bad.includes(index) ? Number.NaN : value)),
    quality,
  };
  return channelSeries(column, elapsedS, 0, values.length, NO_LIMIT);
}

describe('channelSeries', () => {
  it('keeps each reading as a group of its own up to 2048, as by hand', () => {
    // By hand for 1, 2, 3, 4: mean 2.5, Σ d²/n = 5/4.
    const series = seriesOf([1, 2, 3, 4]);
    expect(series).toMatchObject({ count: 4, wildCount: 0, mean: 2.5 });
    expectRelative(series?.variance ?? Number.NaN, 1.25, 1e-12);
    expect([...(series?.groups ?? [])].map((value) => Number(value.toFixed(9)))).toEqual([1, 2, 3, 4]);
    expect([...(series?.groupAtS ?? [])]).toEqual([0, 0.1, 0.2, 0.3]);
  });

  it('has the mean and the variance of all its readings, grouped or not (seed 1)', () => {
    // By their definitions, about a base so that no digits are lost.
    const noise = normal(1);
    const values = Array.from({ length: 50_001 }, () => 1e5 + noise());
    const mean = 1e5 + values.reduce((sum, value) => sum + (value - 1e5), 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    const series = seriesOf(values);
    expect(series?.wildCount).toBe(0);
    expectRelative((series?.mean ?? Number.NaN) - 1e5, mean - 1e5, 1e-6);
    expectRelative(series?.variance ?? Number.NaN, variance, 1e-6);
    // By hand: groups of ⌈50001/2048⌉ = 25, so 2001 of them, the last of one reading.
    expect(series?.groups).toHaveLength(2001);
  });

  it('counts wild readings and averages the others (seed 2)', () => {
    const noise = normal(2);
    const values = Array.from({ length: 5000 }, () => 3 + 0.01 * noise());
    const spoilt = values.map((value, index) => (index % 1000 === 500 ? -40 : value));
    const kept = values.filter((_, index) => index % 1000 !== 500);
    const series = seriesOf(spoilt);
    expect(series).toMatchObject({ count: 4995, wildCount: 5 });
    expectRelative(series?.mean ?? Number.NaN, kept.reduce((sum, value) => sum + value, 0) / kept.length, 1e-9);
  });

  it('is none where less than half of the hold is good', () => {
    expect(seriesOf([1, 2, 3, 4], [0, 1])?.mean).toBeCloseTo(3.5, 12);
    expect(seriesOf([1, 2, 3, 4], [0, 1, 2])).toBeNull();
    expect(seriesOf([1, 2], [0, 1])).toBeNull();
  });
});
