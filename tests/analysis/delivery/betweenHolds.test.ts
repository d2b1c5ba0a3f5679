import { describe, expect, it } from 'vitest';
import { varianceBetweenHolds, withinScatter } from '../../../analysis/delivery/betweenHolds.ts';
import { weightedLeastSquares } from '../../../analysis/delivery/leastSquares.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { syntheticHold } from '../../support/syntheticHolds.ts';

/** A common mean of values, weighted. */
function meanFit(values: readonly number[]) {
  return (weights: readonly number[]) => {
    const fit = accepted(
      weightedLeastSquares(
        values.map(() => [1]),
        values,
        weights,
      ),
    );
    return { fit, residuals: values.map((value) => value - (fit.coefficients[0] ?? 0)) };
  };
}

describe('varianceBetweenHolds', () => {
  it('is the sample variance less the scatter within where that is alike', () => {
    // By hand: 1, 2, 3, 6 have the mean 3 and the variance (4 + 1 + 0 + 9)/3 = 14/3; with s² = 1 each, τ² = 11/3.
    expectRelative(varianceBetweenHolds([1, 1, 1, 1], meanFit([1, 2, 3, 6])), 11 / 3, 1e-9);
  });

  it('brings the weighted residuals to their degrees of freedom', () => {
    // The definition of Paule and Mandel (1982), for unequal scatter.
    const within = [0.04, 1, 0.25, 4, 0.01];
    const fitAt = meanFit([1, 2.5, 3, 6, 0.2]);
    const between = varianceBetweenHolds(within, fitAt);
    const { fit } = fitAt(within.map((variance) => 1 / (variance + between)));
    expectRelative(fit.weightedResidualSumOfSquares, 4, 1e-8);
  });

  it('is nothing where the scatter within explains all', () => {
    expect(varianceBetweenHolds([100, 100, 100], meanFit([1, 2, 3]))).toBe(0);
  });
});

describe('withinScatter', () => {
  it('adds the scatter of the channels and their degrees of freedom', () => {
    // By hand: 3 and 4 make 5; ν = 25²/(9²/10 + 16²/20) = 625/20.9 (Welch-Satterthwaite).
    const made = {
      speedRevPerS: 1,
      differentialPressurePa: 1,
      dynamicViscosityPaS: 1,
      densityKgPerM3: 1,
      flowM3PerS: 1,
    };
    const hold = syntheticHold(1, made, 1);
    const [scatter] = hold.sources;
    if (scatter === undefined) throw new Error('no source');
    const sources = [
      { ...scatter, id: 'a', standardUncertainty: 3, degreesOfFreedom: 10 },
      { ...scatter, id: 'b', standardUncertainty: 2, degreesOfFreedom: 20 },
    ];
    const found = withinScatter({ ...hold, sources }, { value: 0, sensitivities: { a: -1, b: 2, elsewhere: 7 } });
    expectRelative(found.variance, 25, 1e-12);
    expectRelative(found.degreesOfFreedom ?? Number.NaN, 625 / 20.9, 1e-12);
  });
});
