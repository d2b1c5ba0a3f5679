import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { type HoldInfluence, holdInfluences, holdStandingOut } from '../../../analysis/delivery/holdInfluence.ts';
import { weightedLeastSquares } from '../../../analysis/delivery/leastSquares.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

function holdsWith(noise: () => number, wrongM3PerS: number) {
  return [9, 15, 18.75]
    .flatMap((n) => [0.6e5, 1.8e5, 3e5, 3.9e5].map((dp) => ({ n, dp })))
    .map(({ n, dp }, index) =>
      syntheticHold(
        index + 1,
        {
          speedRevPerS: n,
          differentialPressurePa: dp,
          dynamicViscosityPaS: 0.04,
          densityKgPerM3: 860,
          flowM3PerS: 14e-6 * n - (2e-12 * dp) / 0.04 + 2e-7 * noise() + (index === 6 ? wrongM3PerS : 0),
        },
        2e-7,
      ),
    );
}

/** q = V n alone, weights 1. */
function throughZero(points: readonly (readonly [number, number])[]): readonly HoldInfluence[] {
  const oil = { differentialPressurePa: 1e5, dynamicViscosityPaS: 0.04, densityKgPerM3: 860 };
  const holds = points.map(([speedRevPerS, flowM3PerS], index) =>
    syntheticHold(index + 1, { speedRevPerS, flowM3PerS, ...oil }, 1),
  );
  const design = points.map(([n]) => [n]);
  const weights = points.map(() => 1);
  const fit = weightedLeastSquares(
    design,
    points.map(([, q]) => q),
    weights,
  );
  return holdInfluences(holds, design, weights, accepted(fit));
}

describe('holdInfluences', () => {
  it('has the leverages and residuals of a line through zero as by hand', () => {
    // n = 1, 2, 3 and q = 1, 2, 4: V = 17/14, h = n²/14; residuals −3/14, −6/14, 5/14; RSS = 70/196, s² = RSS/2.
    const found = throughZero([
      [1, 1],
      [2, 2],
      [3, 4],
    ]);
    const s = Math.sqrt(70 / 196 / 2);
    for (const [index, [leverage, residual]] of [
      [1 / 14, -3 / 14],
      [4 / 14, -6 / 14],
      [9 / 14, 5 / 14],
    ].entries()) {
      const of = found[index];
      if (leverage === undefined || residual === undefined || of === undefined) throw new Error('no such hold');
      expectRelative(of.leverage, leverage, 1e-12);
      expectRelative(of.studentisedResidual ?? Number.NaN, residual / (s * Math.sqrt(1 - leverage)), 1e-10);
      expectRelative(of.deletedResidualM3PerS ?? Number.NaN, residual / (1 - leverage), 1e-10);
    }
  });

  it('has leverages that add up to the number of terms', () => {
    // The trace of a projection is its rank.
    const { influences, terms } = accepted(fitSlip(holdsWith(normal(1), 0)));
    expectRelative(
      influences.reduce((sum, { leverage }) => sum + leverage, 0),
      terms.length,
      1e-9,
    );
  });

  it('does not test a hold that alone fixes the law', () => {
    // By hand: the only hold with any speed has h = 1.
    const [first, second] = throughZero([
      [2, 3],
      [1e-9, 1],
    ]);
    expect(first).toMatchObject({ studentisedResidual: null, deletedResidualM3PerS: null });
    expect(second?.studentisedResidual).not.toBeNull();
  });
});

describe('holdStandingOut', () => {
  it('finds the hold that was fed a wrong flow (seed 71)', () => {
    // Fed: hold 7 delivers 3e-6 m³/s (0.18 l/min) less, fifteen times the scatter.
    const fit = accepted(fitSlip(holdsWith(normal(71), -3e-6)));
    expect(fit.standingOut?.holdNumber).toBe(7);
    expect(fit.standingOut?.text).toMatch(
      /Hold 7 stands out: it delivered 0\.1[5-9]\d* l\/min less|0\.2\d* l\/min less/,
    );
  });

  it('cries wolf in about one sound run in a hundred (400 runs, seed 72)', () => {
    const next = normal(72);
    let alarms = 0;
    for (let run = 0; run < 400; run += 1) {
      if (accepted(fitSlip(holdsWith(next, 0))).standingOut !== null) alarms += 1;
    }
    // Binomial sum for 400 runs at p = 0.01: P(X > 12) = 8e-5.
    expect(alarms).toBeLessThanOrEqual(12);
  });

  it('says nothing with one degree of freedom', () => {
    expect(
      holdStandingOut(
        throughZero([
          [1, 1],
          [2, 4],
        ]),
        1,
      ),
    ).toBeNull();
  });
});
