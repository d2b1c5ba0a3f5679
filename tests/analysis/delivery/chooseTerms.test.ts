import { describe, expect, it } from 'vitest';
import { chooseTerms } from '../../../analysis/delivery/chooseTerms.ts';
import type { LawTerm } from '../../../analysis/result.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { type HoldMakings, syntheticHold } from '../../support/syntheticHolds.ts';

const ALL: readonly LawTerm[] = [
  'derivedCapacityM3PerRev',
  'laminarSlipM3',
  'orificeSlipM2',
  'speedPressureSlipM3PerPa',
];
const CAPACITY = ALL.slice(0, 1);

function holdsOf(flowOf: (at: Omit<HoldMakings, 'flowM3PerS'>, index: number) => number) {
  return [15, 9, 18.75]
    .flatMap((speedRevPerS) =>
      [0.6e5, 1.8e5, 3e5, 3.9e5].map((differentialPressurePa) => ({
        speedRevPerS,
        differentialPressurePa,
        dynamicViscosityPaS: 0.04,
        densityKgPerM3: 856,
      })),
    )
    .map((at, index) => syntheticHold(index + 1, { ...at, flowM3PerS: flowOf(at, index) }, 1e-7));
}

const RESIDUALS = [3, -1, 2, -4, 1, 0, -2, 3, -1, -3, 2, 1].map((value) => value * 1e-7);

/** −2 ln L + penalty of the law of capacity alone, by brute force over τ, for given variances. */
function bruteAicc(holds: ReturnType<typeof holdsOf>, within: readonly number[]): number {
  let least = Number.POSITIVE_INFINITY;
  for (let step = 0; step <= 40_000; step += 1) {
    const between = (step * 5e-11) ** 2;
    const weights = within.map((variance) => 1 / (variance + between));
    const sum = (of: (n: number, q: number) => number): number =>
      holds.reduce(
        (total, hold, index) => total + (weights[index] ?? 0) * of(hold.speedRevPerS.value, hold.inletFlowM3PerS.value),
        0,
      );
    const capacity = sum((n, q) => n * q) / sum((n) => n * n);
    const squares = sum((n, q) => (q - capacity * n) ** 2);
    least = Math.min(least, squares - weights.reduce((total, weight) => total + Math.log(weight), 0));
  }
  const n = holds.length;
  return least + 4 + 12 / (n - 3);
}

describe('chooseTerms', () => {
  it('is the criterion of Hurvich and Tsai where the holds scatter alike and the readings hardly', () => {
    // Hurvich and Tsai (1989): n ln(RSS/n) + n + 2 K n/(n − K − 1), which equals n ln(RSS/n) + n + 2 K + 2 K (K + 1)/(n − K − 1).
    const holds = holdsOf((at, index) => 14e-6 * at.speedRevPerS + (RESIDUALS[index] ?? 0));
    const n = holds.length;
    const squares = holds.reduce((sum, { speedRevPerS }) => sum + speedRevPerS.value ** 2, 0);
    const cross = holds.reduce((sum, hold) => sum + hold.speedRevPerS.value * hold.inletFlowM3PerS.value, 0);
    const rss = holds.reduce(
      (sum, hold) => sum + (hold.inletFlowM3PerS.value - (cross / squares) * hold.speedRevPerS.value) ** 2,
      0,
    );
    const [candidate] = chooseTerms(
      holds,
      CAPACITY,
      holds.map(() => 1e-22),
    ).candidates;
    expectRelative(candidate?.aicc ?? Number.NaN, n * Math.log(rss / n) + n + (2 * 2 * n) / (n - 2 - 1), 1e-6);
  });

  it('finds the likeliest variance between holds of unequal scatter', () => {
    // Brute force over τ from 0 to 2e-6 m³/s in 40 000 steps, the capacity in closed form.
    const holds = holdsOf((at, index) => 14e-6 * at.speedRevPerS + (RESIDUALS[index] ?? 0));
    for (const spread of [0.3, 1, 3]) {
      const within = holds.map((_, index) => (spread * 1e-7 * (1 + (index % 4))) ** 2);
      const [candidate] = chooseTerms(holds, CAPACITY, within).candidates;
      expect(Math.abs((candidate?.aicc ?? Number.NaN) - bruteAicc(holds, within))).toBeLessThan(1e-4);
    }
  });

  it('demands the terms that are plainly there and no others', () => {
    // Fed: laminar and orifice slip far above a scatter of 1e-8 m³/s, nothing in n Δp (seed 5).
    const next = normal(5);
    const holds = holdsOf(
      (at) =>
        14e-6 * at.speedRevPerS -
        (2.2e-12 * at.differentialPressurePa) / at.dynamicViscosityPaS -
        2e-7 * Math.sqrt((2 * at.differentialPressurePa) / at.densityKgPerM3) +
        1e-8 * next(),
    );
    const choice = chooseTerms(
      holds,
      ALL,
      holds.map(() => 1e-16),
    );
    expect(choice.demanded).toEqual(ALL.slice(0, 3));
    expectRelative(
      choice.candidates.reduce((sum, { akaikeWeight }) => sum + akaikeWeight, 0),
      1,
      1e-12,
    );
    // Burnham and Anderson (2002), 2.9: relative weights are exp(−Δ/2).
    const [best, second] = choice.candidates;
    if (best === undefined || second === undefined) throw new Error('no two candidates');
    expect(best.delta).toBe(0);
    expectRelative(second.akaikeWeight / best.akaikeWeight, Math.exp(-second.delta / 2), 1e-9);
  });

  it('demands no slip of a pump that has none to be seen', () => {
    // Fed: capacity alone with a scatter of 1e-6 m³/s (seed 8); any slip term costs more than it explains.
    const next = normal(8);
    const holds = holdsOf((at) => 14e-6 * at.speedRevPerS + 1e-6 * next());
    expect(
      chooseTerms(
        holds,
        ALL,
        holds.map(() => 1e-12),
      ).demanded,
    ).toEqual(CAPACITY);
  });

  it('leaves out candidates whose slip would run forwards', () => {
    // Fed: flow that rises with pressure, so that no slip coefficient can be positive.
    const holds = holdsOf((at) => 14e-6 * at.speedRevPerS + 1e-11 * at.differentialPressurePa);
    const { candidates } = chooseTerms(
      holds,
      ALL,
      holds.map(() => 1e-16),
    );
    expect(candidates.map(({ terms }) => terms)).toEqual([CAPACITY]);
  });

  it('makes no choice where holds are too few for any', () => {
    // By the formula: n − K − 1 = 3 − 2 − 1 = 0 for capacity alone.
    const holds = holdsOf((at) => 14e-6 * at.speedRevPerS).slice(0, 3);
    expect(
      chooseTerms(
        holds,
        ALL,
        holds.map(() => 1e-16),
      ),
    ).toEqual({ candidates: [], demanded: [] });
  });
});
