import { describe, expect, it } from 'vitest';
import { findKnee } from '../../../../analysis/dryLift/events/knee.ts';
import { normal } from '../../../support/random.ts';

function bent(kneeS: number, seed: number, noisePa: number) {
  const noise = normal(seed);
  const timesS = Array.from({ length: 400 }, (_, index) => 0.02 * index);
  const values = timesS.map((atS) => 97_000 - (atS < kneeS ? 1000 : 50) * (atS - kneeS) + noisePa * noise());
  return { timesS, values };
}

describe('the bend of a suction', () => {
  it('is found within the half width that it states in nearly all of 40 records (seeds 1 to 40)', () => {
    let held = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const kneeS = 3 + 0.05 * seed;
      const knee = findKnee(bent(kneeS, seed, 30));
      if (knee !== null && Math.abs(knee.atS - kneeS) <= knee.halfWidthS) held += 1;
      expect(Math.abs((knee?.slopeBefore ?? 0) + 1000)).toBeLessThan(60);
      expect(Math.abs((knee?.value ?? 0) - 97_000)).toBeLessThan(60);
    }
    // 95 % of 40: fewer than 32 are rarer than one in a thousand (binomial).
    expect(held).toBeGreaterThanOrEqual(32);
  });

  it('is exact without noise, and none is seen in a handful of readings', () => {
    expect(findKnee(bent(4, 1, 0))?.atS).toBeCloseTo(4, 1);
    expect(findKnee({ timesS: [0, 1, 2], values: [3, 2, 2] })).toBeNull();
  });
});
