import { describe, expect, it } from 'vitest';
import { type LeastSquaresFit, weightedLeastSquares } from '../../../analysis/delivery/leastSquares.ts';
import { noInt1 } from '../../reference/nist-noInt1.ts';
import { norris } from '../../reference/nist-norris.ts';
import { wampler1 } from '../../reference/nist-wampler1.ts';
import { wampler3 } from '../../reference/nist-wampler3.ts';
import { wampler5 } from '../../reference/nist-wampler5.ts';
import { expectRelative } from '../../support/expectRelative.ts';

type Point = { readonly x: number; readonly y: number };

function fitted(
  points: readonly Point[],
  regressors: (x: number) => readonly number[],
  weightOf: (point: Point) => number = () => 1,
): LeastSquaresFit {
  const fit = weightedLeastSquares(
    points.map(({ x }) => regressors(x)),
    points.map(({ y }) => y),
    points.map(weightOf),
  );
  if (!fit.ok) throw new Error(fit.reason.code);
  return fit.value;
}

const line = (x: number): readonly number[] => [1, x];
const fifthDegree = (x: number): readonly number[] => [0, 1, 2, 3, 4, 5].map((power) => x ** power);

function residualStandardDeviation(fit: LeastSquaresFit): number {
  return Math.sqrt(fit.weightedResidualSumOfSquares / fit.degreesOfFreedom);
}

function expectCertified(
  fit: LeastSquaresFit,
  certified: {
    readonly coefficients: readonly number[];
    readonly standardDeviations: readonly number[];
    readonly residualStandardDeviation: number;
    readonly degreesOfFreedom: number;
  },
  relativeTolerance: number,
): void {
  expect(fit.degreesOfFreedom).toBe(certified.degreesOfFreedom);
  expectRelative(residualStandardDeviation(fit), certified.residualStandardDeviation, 1e-9);
  for (const [index, coefficient] of certified.coefficients.entries()) {
    expectRelative(fit.coefficients[index] ?? Number.NaN, coefficient, relativeTolerance);
    const unscaled = fit.covarianceUnscaled[index]?.[index] ?? Number.NaN;
    expectRelative(
      residualStandardDeviation(fit) * Math.sqrt(unscaled),
      certified.standardDeviations[index] ?? Number.NaN,
      relativeTolerance,
    );
  }
}

describe('weightedLeastSquares', () => {
  it('reproduces the certified straight lines of NIST to nine digits', () => {
    // NIST Statistical Reference Datasets, linear: Norris (lower difficulty), NoInt1 (average, through the origin).
    expectCertified(fitted(norris.points, line), norris.certified, 1e-9);
    expectCertified(
      fitted(noInt1.points, (x) => [x]),
      noInt1.certified,
      1e-9,
    );
  });

  it('reproduces the certified fifth-degree polynomials of NIST', () => {
    // NIST Statistical Reference Datasets, linear, higher difficulty: Wampler3 and Wampler5 (the same design with ever
    // more noise); for Wampler5 six digits are what double precision can be asked for.
    expectCertified(fitted(wampler3.points, fifthDegree), wampler3.certified, 1e-9);
    expectCertified(fitted(wampler5.points, fifthDegree), wampler5.certified, 1e-6);
  });

  it('finds an exact polynomial with next to no residual', () => {
    // NIST Statistical Reference Datasets: Wampler1, every coefficient 1, residual 0.
    const fit = fitted(wampler1.points, fifthDegree);
    for (const coefficient of fit.coefficients) expectRelative(coefficient, 1, 1e-8);
    // Against values of up to 3.4e6 the rounding of doubles alone is of order 1e-9.
    expect(residualStandardDeviation(fit)).toBeLessThan(1e-7);
  });

  it('reproduces the thermometer line of the guide', () => {
    // JCGM 100:2008, H.3, b(t) = y₁ + y₂ (t − 20 °C); digits beyond the guide's from its inputs, recomputed.
    const t = [21.521, 22.012, 22.512, 23.003, 23.507, 23.999, 24.513, 25.002, 25.503, 26.01, 26.511];
    const b = [-0.171, -0.169, -0.166, -0.159, -0.164, -0.165, -0.156, -0.157, -0.159, -0.161, -0.16];
    const fit = fitted(
      t.map((temperature, index) => ({ x: temperature - 20, y: b[index] ?? Number.NaN })),
      line,
    );
    const s = residualStandardDeviation(fit);
    expectRelative(s, 0.003497563964, 1e-8);
    expectRelative(fit.weightedResidualSumOfSquares, 1.10096583e-4, 1e-8);
    expectRelative(fit.coefficients[0] ?? Number.NaN, -0.17120379, 1e-8);
    expectRelative(fit.coefficients[1] ?? Number.NaN, 0.00218269774, 1e-8);
    const [[v11 = Number.NaN, v12 = Number.NaN] = [], [, v22 = Number.NaN] = []] = fit.covarianceUnscaled;
    expectRelative(s * Math.sqrt(v11), 0.002877598, 2e-7);
    expectRelative(s * Math.sqrt(v22), 0.000667938773, 1e-8);
    expectRelative(v12 / Math.sqrt(v11 * v22), -0.930429603, 1e-8);
    // b(30 °C) and its standard uncertainty.
    expectRelative((fit.coefficients[0] ?? Number.NaN) + 10 * (fit.coefficients[1] ?? Number.NaN), -0.149376813, 1e-8);
    expectRelative(s * Math.sqrt(v11 + 20 * v12 + 100 * v22), 0.004138596, 2e-7);
  });

  it('gives the matrix that leads from the responses to the coefficients', () => {
    // The definition: coefficients = A y, A X = 1.
    const weightOf = ({ x }: Point): number => 1 / (1 + x);
    const fit = fitted(norris.points, line, weightOf);
    for (const [index, row] of fit.pseudoInverse.entries()) {
      const dot = (column: (point: Point) => number): number =>
        row.reduce((sum, entry, at) => {
          const point = norris.points[at];
          return sum + (point === undefined ? Number.NaN : entry * column(point));
        }, 0);
      expectRelative(
        dot(({ y }) => y),
        fit.coefficients[index] ?? Number.NaN,
        1e-10,
      );
      expect(Math.abs(dot(() => 1) - (index === 0 ? 1 : 0))).toBeLessThan(1e-10);
      expect(Math.abs(dot(({ x }) => x) - (index === 1 ? 1 : 0))).toBeLessThan(1e-8);
    }
  });

  it('counts a response of weight two like two responses', () => {
    // By hand: the mean of 1, 4, 4 is 3; residuals −2, 1, 1, so the sum of squares is 6 and (XᵀWX)⁻¹ is 1/3.
    const fit = weightedLeastSquares([[1], [1]], [1, 4], [1, 2]);
    if (!fit.ok) throw new Error(fit.reason.code);
    expectRelative(fit.value.coefficients[0] ?? Number.NaN, 3, 1e-12);
    expectRelative(fit.value.weightedResidualSumOfSquares, 6, 1e-12);
    expectRelative(fit.value.covarianceUnscaled[0]?.[0] ?? Number.NaN, 1 / 3, 1e-12);
  });

  it('does not care for the units of a column', () => {
    // By hand: a regressor 1e12 times as large has a coefficient 1e12 times as small.
    const plain = fitted(norris.points, line);
    const scaled = fitted(norris.points, (x) => [1, 1e12 * x]);
    expectRelative((scaled.coefficients[1] ?? Number.NaN) * 1e12, plain.coefficients[1] ?? Number.NaN, 1e-12);
    expectRelative(scaled.coefficients[0] ?? Number.NaN, plain.coefficients[0] ?? Number.NaN, 1e-10);
  });

  it('refuses columns that say the same, a column of zeros, and too few rows', () => {
    const refusalOf = (design: readonly (readonly number[])[]): unknown => {
      const ones = design.map(() => 1);
      const fit = weightedLeastSquares(design, ones, ones);
      return fit.ok ? 'fitted' : fit.reason;
    };
    expect(refusalOf([1, 2, 3, 4].map((x) => [x, 2 * x]))).toEqual({ code: 'RANK', column: 1 });
    expect(refusalOf([1, 2, 3, 4].map((x) => [x, 0]))).toEqual({ code: 'RANK', column: 1 });
    expect(refusalOf([1, 2].map((x) => [1, x]))).toEqual({ code: 'TOO_FEW_ROWS', got: 2, needed: 3 });
    expect(refusalOf([])).toMatchObject({ code: 'TOO_FEW_ROWS' });
  });
});
