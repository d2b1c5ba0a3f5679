import { describe, expect, it } from 'vitest';
import { fitSlip } from '../../../analysis/delivery/fitSlip.ts';
import { type LackOfFit, repeatTest } from '../../../analysis/delivery/lackOfFit.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { normal } from '../../support/random.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

/** Four pressures at three speeds, the first speed taken twice; flow with a knee at the top speed where asked. */
function lackOf(noise: () => number, kneeM3PerS: number, isRepeated = true): LackOfFit {
  const speeds = isRepeated ? [9, 15, 18.75, 9, 15] : [9, 15, 18.75];
  const holds = speeds
    .flatMap((n) => [0.6e5, 1.8e5, 3e5, 3.9e5].map((dp) => ({ n, dp })))
    .map(({ n, dp }, index) =>
      syntheticHold(
        index + 1,
        {
          speedRevPerS: n,
          differentialPressurePa: dp,
          dynamicViscosityPaS: 0.04,
          densityKgPerM3: 860,
          flowM3PerS: 14e-6 * n - (2e-12 * dp) / 0.04 + 2e-7 * noise() - (n > 18 ? kneeM3PerS : 0),
        },
        2e-7,
      ),
    );
  return accepted(fitSlip(holds)).lackOfFit;
}

describe('repeatTest', () => {
  it('divides what is left as by hand', () => {
    // Residuals ±1 at a repeated point, 2 and −2 at two others, one coefficient: RSS 10, repeats 2 with 1 degree of freedom,
    // lack 8 with 3 − 1 = 2: F = 4/2 = 2, and for ν₁ = 2 its probability is (1 + 2 F/ν₂)^(−ν₂/2) = 5^(−1/2).
    const of = (...residuals: number[]) => residuals.map((residual) => ({ residual, weight: 1 }));
    const test = repeatTest([of(1, -1), of(2), of(-2)], 1);
    expect(test).toMatchObject({ fRatio: 2, lackDegreesOfFreedom: 2, repeatDegreesOfFreedom: 1 });
    expectRelative(test?.probability ?? Number.NaN, 5 ** -0.5, 1e-9);
  });

  it('says nothing without repeats, or with no more set points than coefficients', () => {
    const one = { residual: 1, weight: 1 };
    const other = { residual: -1, weight: 1 };
    expect(repeatTest([[one], [other], [one]], 1)).toBeNull();
    expect(repeatTest([[one, other]], 1)).toBeNull();
  });
});

describe('lackOfFit', () => {
  it('calls a right law lacking about once in a hundred (400 runs, seed 31)', () => {
    const next = normal(31);
    let byScatter = 0;
    let byRepeats = 0;
    for (let run = 0; run < 400; run += 1) {
      const lack = lackOf(next, 0);
      if (lack.againstScatter.probability < 0.01) byScatter += 1;
      if (lack.isLacking === true) byRepeats += 1;
    }
    // Binomial sum for 400 runs at p = 0.01: P(X > 12) = 8e-5; the test against scatter errs towards 'no lack'.
    expect(byScatter).toBeLessThanOrEqual(12);
    expect(byRepeats).toBeLessThanOrEqual(12);
  });

  it('sees a pump that no longer fills at the top speed', () => {
    // Fed: 5 % of the flow lost at the top speed, 60 times the scatter (seed 32).
    const lack = lackOf(normal(32), 1.3e-5);
    expect(lack.isLacking).toBe(true);
    expect(lack.againstScatter.probability).toBeLessThan(1e-6);
    expect(lack.text).toMatch(/something other than slip/);
  });

  it('cannot tell a wrong law from holds that do not repeat where none was repeated, and says so', () => {
    const lack = lackOf(normal(33), 1.3e-5, false);
    expect(lack.againstRepeats).toBeNull();
    expect(lack.isLacking).toBeNull();
    expect(lack.text).toMatch(/Repeat three set points/);
  });
});
