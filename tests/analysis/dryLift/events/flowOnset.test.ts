import { describe, expect, it } from 'vitest';
import { fillTimes, flowOnsets } from '../../../../analysis/dryLift/events/flowOnset.ts';
import { unlagged } from '../../../../analysis/dryLift/events/unlagged.ts';
import { normal } from '../../../support/random.ts';

const FULL_M3_PER_S = 2e-4;
const NOISE_M3_PER_S = 2e-7;

/** A meter of one lag by small steps of its own equation: none of the closed forms of what is tested. */
function lagged(flow: (atS: number) => number, lagS: number, ratePerS: number, noise: () => number) {
  const stepS = 1e-4;
  const timesS: number[] = [];
  const values: number[] = [];
  let shown = 0;
  let nextS = 0;
  for (let atS = 0; atS < 3; atS += stepS) {
    shown += (stepS / lagS) * (flow(atS) - shown);
    if (atS < nextS) continue;
    timesS.push(atS);
    values.push(shown + NOISE_M3_PER_S * noise());
    nextS += 1 / ratePerS;
  }
  return { timesS, values };
}

describe('the onset of a flow behind a lagging meter', () => {
  it.each([
    [0.02, 20],
    [0.05, 50],
    [0.3, 50],
  ])(
    'is found to a tenth of the lag and a fifth of an interval: lag %d s, %d readings a second (seeds 1 to 5)',
    (lagS, ratePerS) => {
      for (let seed = 1; seed <= 5; seed += 1) {
        const onsetS = 1 + 0.013 * seed;
        const flow = (atS: number): number =>
          atS < onsetS ? 0 : FULL_M3_PER_S * (1 - 0.6 * Math.exp(-(atS - onsetS) / 0.3));
        const shown = lagged(flow, lagS, ratePerS, normal(seed));
        const meter = { lagS, noiseM3PerS: NOISE_M3_PER_S, fullM3PerS: FULL_M3_PER_S };
        const [best, ...asGood] = flowOnsets(shown, meter, { fromS: 0.8, untilS: 1.4 });
        expect(Math.abs((best?.atS ?? Number.NaN) - onsetS)).toBeLessThan(0.1 * lagS + 0.2 / ratePerS);
        expect(Math.abs((best?.firstM3PerS ?? Number.NaN) / FULL_M3_PER_S - 0.4)).toBeLessThan(0.08);
        for (const { atS } of asGood) expect(Math.abs(atS - onsetS)).toBeLessThan(0.1);
      }
    },
  );

  it('is not told by three readings', () => {
    const meter = { lagS: 0.05, noiseM3PerS: NOISE_M3_PER_S, fullM3PerS: FULL_M3_PER_S };
    expect(flowOnsets({ timesS: [0, 1, 2], values: [0, 0, 1] }, meter, { fromS: 0, untilS: 2 })).toEqual([]);
  });
});

describe('the time in which a line fills before its meter sees oil', () => {
  it('is that of the rise by which it filled, whatever that was', () => {
    // Line volume one, full flow one. Straight rise over 3: the line is full at √6, u = √6/3; half was met at 1.5.
    const straight = fillTimes(Math.sqrt(6) / 3, 0.5, 0);
    expect(Math.abs(straight.times - (Math.sqrt(6) - 1.5))).toBeLessThanOrEqual(4 * straight.halfWidth);
    // Mixing with T = 2: full where t − 2 (1 − exp(−t/2)) = 1, by bisection; half was met at 2 ln 2.
    let [low, high] = [0, 10];
    for (let step = 0; step < 60; step += 1) {
      const middle = (low + high) / 2;
      if (middle - 2 * (1 - Math.exp(-middle / 2)) < 1) low = middle;
      else high = middle;
    }
    expect(fillTimes(1 - Math.exp(-low / 2), 0.5, 2).times).toBeCloseTo(low - 2 * Math.LN2, 9);
    // A step to the full flow: one volume at one flow.
    expect(Math.abs(fillTimes(1, 0.5, 0.01).times - 1)).toBeLessThan(0.05);
  });
});

describe('a reading with its lag taken off', () => {
  it('is what the meter was shown, for a steady slope', () => {
    const shown = lagged(
      (atS) => 1e-4 * atS,
      0.2,
      50,
      () => 0,
    );
    const back = unlagged(shown, 0.2);
    for (const [index, atS] of shown.timesS.entries()) {
      // Five lags after the start: exp(−5) is left of the beginning.
      if (atS > 1.2 && atS < 2.9) expect(Math.abs((back.values[index] ?? 0) - 1e-4 * atS)).toBeLessThan(2e-7);
    }
  });
});
