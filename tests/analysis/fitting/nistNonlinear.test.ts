import { describe, expect, it } from 'vitest';
import {
  bestOfStarts,
  fitSensitivities,
  type LeastSquaresProblem,
  levenbergMarquardt,
} from '../../../analysis/fitting/levenbergMarquardt.ts';
import { chwirut2 } from '../../reference/nist-chwirut2.ts';
import { danWood } from '../../reference/nist-danWood.ts';
import { gauss1 } from '../../reference/nist-gauss1.ts';
import { hahn1 } from '../../reference/nist-hahn1.ts';
import { kirby2 } from '../../reference/nist-kirby2.ts';
import { lanczos3 } from '../../reference/nist-lanczos3.ts';
import { mgh09 } from '../../reference/nist-mgh09.ts';
import { misra1a } from '../../reference/nist-misra1a.ts';
import { misra1b } from '../../reference/nist-misra1b.ts';
import { nelson } from '../../reference/nist-nelson.ts';
import { rat42 } from '../../reference/nist-rat42.ts';
import { roszman1 } from '../../reference/nist-roszman1.ts';
import { expectRelative } from '../../support/expectRelative.ts';

type DataSet = {
  readonly starts: readonly (readonly number[])[];
  readonly certified: {
    readonly parameters: readonly number[];
    readonly standardDeviations: readonly number[];
    readonly residualSumOfSquares: number;
    readonly residualStandardDeviation: number;
    readonly degreesOfFreedom: number;
  };
};
type Model = (b: readonly number[], x: number) => number;

const p = (b: readonly number[], index: number): number => b[index - 1] ?? Number.NaN;

/** The models as NIST states them. */
const MODELS = {
  misra1a: (b, x) => p(b, 1) * (1 - Math.exp(-p(b, 2) * x)),
  misra1b: (b, x) => p(b, 1) * (1 - (1 + (p(b, 2) * x) / 2) ** -2),
  danWood: (b, x) => p(b, 1) * x ** p(b, 2),
  chwirut2: (b, x) => Math.exp(-p(b, 1) * x) / (p(b, 2) + p(b, 3) * x),
  kirby2: (b, x) => (p(b, 1) + p(b, 2) * x + p(b, 3) * x * x) / (1 + p(b, 4) * x + p(b, 5) * x * x),
  gauss1: (b, x) =>
    p(b, 1) * Math.exp(-p(b, 2) * x) +
    p(b, 3) * Math.exp(-((x - p(b, 4)) ** 2) / p(b, 5) ** 2) +
    p(b, 6) * Math.exp(-((x - p(b, 7)) ** 2) / p(b, 8) ** 2),
  hahn1: (b, x) =>
    (p(b, 1) + p(b, 2) * x + p(b, 3) * x ** 2 + p(b, 4) * x ** 3) /
    (1 + p(b, 5) * x + p(b, 6) * x ** 2 + p(b, 7) * x ** 3),
  rat42: (b, x) => p(b, 1) / (1 + Math.exp(p(b, 2) - p(b, 3) * x)),
  mgh09: (b, x) => (p(b, 1) * (x ** 2 + x * p(b, 2))) / (x ** 2 + x * p(b, 3) + p(b, 4)),
  roszman1: (b, x) => p(b, 1) - p(b, 2) * x - Math.atan(p(b, 3) / (x - p(b, 4))) / Math.PI,
  lanczos3: (b, x) =>
    p(b, 1) * Math.exp(-p(b, 2) * x) + p(b, 3) * Math.exp(-p(b, 4) * x) + p(b, 5) * Math.exp(-p(b, 6) * x),
} as const satisfies Record<string, Model>;

function problemOf(points: readonly { readonly x: number; readonly y: number }[], model: Model): LeastSquaresProblem {
  return {
    residuals: (b) => points.map(({ x, y }) => model(b, x) - y),
    jacobian: null,
    differenceSteps: null,
    mostIterations: 2000,
  };
}

function expectCertified(problem: LeastSquaresProblem, start: readonly number[], data: DataSet): void {
  const { certified } = data;
  const fit = levenbergMarquardt(problem, start);
  expect(fit.hasConverged).toBe(true);
  const sensitivities = fitSensitivities(fit.jacobian);
  const residualDeviation = Math.sqrt(fit.sumOfSquares / certified.degreesOfFreedom);
  expectRelative(residualDeviation, certified.residualStandardDeviation, 1e-6);
  for (const [index, expected] of certified.parameters.entries()) {
    expectRelative(fit.parameters[index] ?? Number.NaN, expected, 1e-6);
    const variance = sensitivities?.covarianceUnscaled[index]?.[index] ?? Number.NaN;
    expectRelative(residualDeviation * Math.sqrt(variance), certified.standardDeviations[index] ?? 0, 1e-5);
  }
}

// Expected: certified values of the NIST Statistical Reference Datasets, parameters to 1e-6 and their deviations to 1e-5.
describe('Levenberg and Marquardt against NIST nonlinear data sets', () => {
  it.each([
    ['Misra1a', misra1a, MODELS.misra1a, [0, 1]],
    ['Misra1b', misra1b, MODELS.misra1b, [0, 1]],
    ['DanWood', danWood, MODELS.danWood, [0, 1]],
    ['Chwirut2', chwirut2, MODELS.chwirut2, [0, 1]],
    ['Kirby2', kirby2, MODELS.kirby2, [0, 1]],
    ['Gauss1', gauss1, MODELS.gauss1, [0, 1]],
    ['Hahn1', hahn1, MODELS.hahn1, [0, 1]],
    ['Rat42', rat42, MODELS.rat42, [0, 1]],
    ['MGH09', mgh09, MODELS.mgh09, [0, 1]],
    ['Roszman1', roszman1, MODELS.roszman1, [0, 1]],
    ['Lanczos3', lanczos3, MODELS.lanczos3, [0, 1]],
  ] as const)('reproduces %s from both starts', (_, data, model, starts) => {
    for (const start of starts) expectCertified(problemOf(data.points, model), data.starts[start], data);
  });

  it('reproduces Nelson, two predictors and a logarithm, from the second start', () => {
    const problem: LeastSquaresProblem = {
      residuals: (b) =>
        nelson.points.map(({ x1, x2, y }) => p(b, 1) - p(b, 2) * x1 * Math.exp(-p(b, 3) * x2) - Math.log(y)),
      jacobian: null,
      differenceSteps: null,
      mostIterations: 2000,
    };
    expectCertified(problem, nelson.starts[1], nelson);
  });

  it('finds the deep valley from several starts where one of them ends elsewhere', () => {
    const fit = bestOfStarts(problemOf(misra1a.points, MODELS.misra1a), [[1, -1e-4], ...misra1a.starts]);
    expect(fit.hasConverged).toBe(true);
    expectRelative(fit.sumOfSquares, misra1a.certified.residualSumOfSquares, 1e-9);
  });

  it('says that it has not converged when it may not iterate long enough', () => {
    const problem = { ...problemOf(misra1a.points, MODELS.misra1a), mostIterations: 1 };
    expect(levenbergMarquardt(problem, misra1a.starts[0]).hasConverged).toBe(false);
  });

  it('takes a jacobian and steps of its own and finds the same parabola foot as by hand', () => {
    // By hand: residuals 2a − 6 and b − 1 vanish at a = 3, b = 1; (JᵀJ)⁻¹ = diag(1/4, 1).
    const residuals = ([a = 0, b = 0]: readonly number[]): readonly number[] => [2 * a - 6, b - 1, 0];
    const rows = [
      [2, 0],
      [0, 1],
      [0, 0],
    ];
    for (const problem of [
      { residuals, jacobian: () => rows, differenceSteps: null, mostIterations: 50 },
      { residuals, jacobian: null, differenceSteps: [0.1, 0.1], mostIterations: 50 },
    ]) {
      const fit = levenbergMarquardt(problem, [10, 10]);
      expectRelative(fit.parameters[0] ?? 0, 3, 1e-9);
      expectRelative(fit.parameters[1] ?? 0, 1, 1e-9);
      expectRelative(fitSensitivities(fit.jacobian)?.covarianceUnscaled[0]?.[0] ?? 0, 0.25, 1e-9);
    }
  });

  it('says that a parameter without effect is not determined', () => {
    const fit = levenbergMarquardt(
      {
        residuals: ([a = 0]) => [a - 1, a - 2, a - 3],
        jacobian: null,
        differenceSteps: null,
        mostIterations: 50,
      },
      [0, 5],
    );
    expectRelative(fit.parameters[0] ?? 0, 2, 1e-9); // by hand: the mean of 1, 2, 3
    expect(fitSensitivities(fit.jacobian)).toBeNull();
  });

  it('refuses a wrong caller: no start, residuals that are not finite, fewer residuals than parameters', () => {
    const problem = { residuals: () => [Number.NaN], jacobian: null, differenceSteps: null, mostIterations: 5 };
    expect(() => bestOfStarts(problem, [])).toThrow(RangeError);
    expect(() => levenbergMarquardt(problem, [1])).toThrow(RangeError);
    expect(() => levenbergMarquardt({ ...problem, residuals: () => [1] }, [1, 2])).toThrow(RangeError);
  });
});
