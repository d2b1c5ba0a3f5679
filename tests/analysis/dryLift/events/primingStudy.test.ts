import { describe, expect, it } from 'vitest';
import { binomialBelow } from '../../../coverage/coverage.ts';
import { drawStart, type LiftShare, measurePriming } from '../../../coverage/primingBench.ts';

const COUNT = 8;
const FIRST_SEED = 7300;
const RARE = 1e-3;
/** A meter of at most this lag must time the priming to within so much [s]. */
const QUICK_METER_S = 0.05;
const QUICK_ERROR_S = 0.1;

const studied = (side: LiftShare) =>
  Array.from({ length: COUNT }, (_, index) => {
    const drawn = drawStart(FIRST_SEED + index, side);
    return { ...drawn, measured: measurePriming(drawn) };
  });

// Three kinds of pump, meters of 20 ms to 1 s, 20 to 100 readings a second, films, foam: tests/coverage/drawPlant.ts.
// A hundred of each side take a minute: `npm run coverage:priming 100 SEED`.
describe(`${COUNT} starts above the limit and ${COUNT} below it, seeds ${FIRST_SEED} on`, () => {
  it('are called primed below 0.9 times the limit, and never above 1.1 times', () => {
    for (const { hasFilms, measured } of studied('above')) {
      expect(measured.isFoundPrimed).toBe(measured.wasPrimed);
      if (!hasFilms) expect(measured.wasPrimed).toBe(false);
    }
    const below = studied('below');
    let [held, timed] = [0, 0];
    for (const { flowLagS, measured } of below) {
      expect(measured.isFoundPrimed).toBe(measured.wasPrimed);
      expect(measured.isSuspected).toBe(false);
      if (measured.priming === null) continue;
      const { errorS, expandedUncertaintyS } = measured.priming;
      timed += 1;
      if (Math.abs(errorS) <= expandedUncertaintyS) held += 1;
      if (flowLagS <= QUICK_METER_S) expect(Math.abs(errorS)).toBeLessThanOrEqual(QUICK_ERROR_S);
    }
    expect(timed).toBeGreaterThanOrEqual(COUNT - 1);
    expect(binomialBelow(held, timed, 0.95)).toBeGreaterThan(RARE);
  });
});
