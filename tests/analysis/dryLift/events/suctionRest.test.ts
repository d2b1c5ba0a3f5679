import { describe, expect, it } from 'vitest';
import { suctionRest } from '../../../../analysis/dryLift/events/suctionRest.ts';

/** Readings every 40 ms from 0 s on, motor start right after the last one. */
function restOf(values: readonly number[]) {
  const timesS = values.map((_, index) => 0.04 * index);
  return suctionRest({ timesS, values }, 0.04 * (values.length - 1) + 0.001);
}

/** Up and down by one about a middle. */
const still = (middlePa: number, count: number): number[] =>
  Array.from({ length: count }, (_, index) => middlePa + (index % 3) - 1);

describe('the suction at rest', () => {
  it('is the mean of all readings where nothing happens before the motor starts', () => {
    // 60 readings of middle − 1, middle, middle + 1 in turn: mean the middle, Σ (x − mean)² = 40.
    expect(restOf(still(101_300, 60))).toEqual({
      meanPa: 101_300,
      meanAtS: expect.closeTo(0.04 * 29.5, 9),
      noisePa: expect.closeTo(Math.sqrt(40 / 59), 9),
      count: 60,
    });
  });

  it('begins when the pipe was vented, not when the record begins', () => {
    const rest = restOf([...still(97_500, 45), ...[99_000, 100_600, 101_100], ...still(101_300, 30)]);
    expect(rest).toMatchObject({ meanPa: 101_300, count: 30 });
  });

  it('leaves out a single wild reading and goes on behind it', () => {
    const values = still(101_300, 60);
    values[20] = 20_000;
    expect(restOf(values)?.count).toBe(59);
    expect(restOf(values)?.noisePa).toBeLessThan(1);
  });

  it('keeps a last digit that flickers now and then, and leaves out where the channel stood before', () => {
    const coarse = Array.from({ length: 40 }, (_, index) => (index % 20 === 7 ? 101_400 : 101_300));
    expect(restOf([...Array.from({ length: 20 }, () => 97_500), ...coarse])).toMatchObject({
      count: 40,
      meanPa: 101_305,
    });
  });

  it('is not known from four readings', () => {
    expect(restOf(still(101_300, 4))).toBeNull();
  });
});
