import { describe, expect, it } from 'vitest';
import { clockFindings, clockLine, elapsedAt, tieClocks } from '../../../analysis/clock/tieClocks.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { uniform } from '../../support/random.ts';

type Link = { readonly deviceUs: Float64Array; readonly arrivalUs: Float64Array };

/**
 * Lines of a bench whose clock runs `rate` bench seconds in a host second: sent evenly, late by 1 ms and an exponential
 * delay of 2 ms in the mean; now and then a stall holds all lines of up to 0.4 s back and lets them arrive together.
 */
function link(seed: number, rate: number, durationS: number, readingsPerS: number): Link {
  const next = uniform(seed);
  const count = durationS * readingsPerS;
  const deviceUs = new Float64Array(count);
  const arrivalUs = new Float64Array(count);
  let stalledUntilUs = 0;
  for (let index = 0; index < count; index += 1) {
    const sentUs = 7e6 + (index * 1e6) / readingsPerS;
    deviceUs[index] = 123_456_789 + (index * 1e6 * rate) / readingsPerS;
    if (next() < 0.5 / readingsPerS) stalledUntilUs = sentUs + 4e5 * next();
    const lateUs = Math.max(sentUs + 1000 - 2000 * Math.log(1 - next()), stalledUntilUs);
    arrivalUs[index] = Math.max(lateUs, arrivalUs[index - 1] ?? 0);
  }
  return { deviceUs, arrivalUs };
}

describe('the bench clock held against the host', () => {
  it.each([50e-6, -50e-6, 0])('recovers a drift of %f through late lines and stalls (seeds 1 to 10)', (drift) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const { deviceUs, arrivalUs } = link(seed, 1 + drift, 600, 50);
      const tie = tieClocks(deviceUs, arrivalUs, 1);
      // 600 s, block minima good to some 20 µs each: 1e-6 is ten times what is left.
      expect(Math.abs((tie?.rateError ?? Number.NaN) - drift)).toBeLessThan(1e-6);
    }
  });

  it('counts the median delay from the quickest line on (seed 11)', () => {
    // Law: the median of an exponential delay of 2 ms is 2 ms × ln 2 = 1.386 ms; a tenth of the lines stalled moves it up a little.
    const { deviceUs, arrivalUs } = link(11, 1, 600, 50);
    const delayS = tieClocks(deviceUs, arrivalUs, 1)?.medianDelayS ?? Number.NaN;
    expect(delayS).toBeGreaterThan(1.386e-3 * 0.95);
    expect(delayS).toBeLessThan(1.386e-3 * 1.4);
  });

  it('finds the quickest arrival of the first reading though that very line was late (seed 12)', () => {
    const { deviceUs, arrivalUs } = link(12, 1 + 50e-6, 600, 50);
    arrivalUs[0] = 7e6 + 15_000;
    const line = clockLine(deviceUs, arrivalUs, 1);
    if (line === null) throw new Error('no line');
    // Sent at 7 s, quickest delay 1 ms.
    expect(Math.abs(line.firstHostUs - 7_001_000)).toBeLessThan(300);
    // 100 s of the host are 100.005 s of a bench that runs 50 ppm fast.
    expect(Math.abs(elapsedAt(line, 107_001_000) - 100.005)).toBeLessThan(5e-4);
  });

  it('takes the speed-up of a practice bench out of the rate (seed 13)', () => {
    const { deviceUs, arrivalUs } = link(13, 20 * (1 + 100e-6), 600, 50);
    const tie = tieClocks(deviceUs, arrivalUs, 20, 3);
    expect(Math.abs((tie?.rateError ?? Number.NaN) - 100e-6)).toBeLessThan(1e-6);
    expect(tie?.jumpCount).toBe(3);
    expectRelative(clockLine(deviceUs, arrivalUs, 20)?.benchPerHost ?? Number.NaN, 20 * (1 + 100e-6), 1e-6);
  });

  it('is the same whenever the two clocks were started', () => {
    const { deviceUs, arrivalUs } = link(14, 1 + 50e-6, 60, 50);
    const shifted = tieClocks(
      deviceUs.map((us) => us + 2 ** 40),
      arrivalUs.map((us) => us + 2 ** 36),
      1,
    );
    const tie = tieClocks(deviceUs, arrivalUs, 1);
    expect(Math.abs((shifted?.rateError ?? Number.NaN) - (tie?.rateError ?? Number.NaN))).toBeLessThan(1e-9);
  });

  it('says nothing of a rate from a handful of lines, from lines of one instant, or of less than a second', () => {
    const { deviceUs, arrivalUs } = link(15, 1, 60, 50);
    expect(tieClocks(deviceUs.subarray(0, 19), arrivalUs.subarray(0, 19), 1)).toBeNull();
    expect(tieClocks(deviceUs.subarray(0, 40), arrivalUs.subarray(0, 40), 1)).toBeNull();
    expect(tieClocks(deviceUs, new Float64Array(deviceUs.length), 1)).toBeNull();
    expect(tieClocks(new Float64Array(0), new Float64Array(0), 1)).toBeNull();
  });

  it('throws for columns of different length and a speed-up that is none', () => {
    expect(() => tieClocks(new Float64Array(3), new Float64Array(2), 1)).toThrow(RangeError);
    expect(() => tieClocks(new Float64Array(3), new Float64Array(3), 0)).toThrow(RangeError);
  });
});

describe('what is said of the bench clock', () => {
  it('warns of a clock that is off by more than a part in a thousand, and says which way', () => {
    const tie = { medianDelayS: 0.001, jumpCount: 0 };
    expect(clockFindings({ ...tie, rateError: 0.9e-3 }, false)).toEqual([]);
    expect(clockFindings({ ...tie, rateError: 0.0123 }, false)).toMatchObject([
      { code: 'CLOCK_RATE', severity: 'warning', text: expect.stringContaining('1.23 % fast') },
    ]);
    expect(clockFindings({ ...tie, rateError: -0.0123 }, false)[0]?.text).toContain('slow');
  });

  it('is silent for a practice bench, and where nothing was tied', () => {
    expect(clockFindings({ rateError: 0.5, medianDelayS: 0, jumpCount: 0 }, true)).toEqual([]);
    expect(clockFindings(null, false)).toEqual([]);
  });
});
