import { inverse, Matrix, QrDecomposition } from 'ml-matrix';
import { no, type Outcome, yes } from '../outcome.ts';

export type LeastSquaresFit = {
  /** [p] */
  readonly coefficients: readonly number[];
  /** A with coefficients = A · response [p × n]. */
  readonly pseudoInverse: readonly (readonly number[])[];
  /** (XᵀWX)⁻¹ [p × p]. */
  readonly covarianceUnscaled: readonly (readonly number[])[];
  readonly weightedResidualSumOfSquares: number;
  /** n − p. */
  readonly degreesOfFreedom: number;
};

export type LeastSquaresRefusal =
  | { readonly code: 'TOO_FEW_ROWS'; readonly got: number; readonly needed: number }
  | { readonly code: 'RANK'; readonly column: number };

/** A column whose part that no other column explains is smaller than this counts as explained [1]. */
const RANK_TOLERANCE = 1e-10;

/**
 * Weighted linear least squares by Householder QR on columns scaled to unit length: SI coefficients differ by twelve
 * powers of ten, and normal equations would lose half the digits.
 *
 * @param design - X [n rows × p columns, any units]
 * @param response - y [n, any unit]
 * @param weights - > 0, one over the variance of each response [n]
 * @returns coefficients and what is needed to propagate through them, or why they are not unique [-]
 *
 * Source: Golub and Van Loan, Matrix Computations, 5.3 (least squares by QR); JCGM 102:2011, 6.2 (A as sensitivity).
 */
export function weightedLeastSquares(
  design: readonly (readonly number[])[],
  response: readonly number[],
  weights: readonly number[],
): Outcome<LeastSquaresFit, LeastSquaresRefusal> {
  const rowCount = design.length;
  const columnCount = design[0]?.length ?? 0;
  if (rowCount <= columnCount || columnCount === 0) {
    return no({ code: 'TOO_FEW_ROWS', got: rowCount, needed: columnCount + 1 });
  }
  const roots = weights.map(Math.sqrt);
  const weighted = design.map((row, index) => row.map((entry) => entry * (roots[index] ?? Number.NaN)));
  const scales = Array.from({ length: columnCount }, (_, column) =>
    Math.hypot(...weighted.map((row) => row[column] ?? Number.NaN)),
  );
  const emptyColumn = scales.findIndex((scale) => !(scale > 0));
  if (emptyColumn >= 0) return no({ code: 'RANK', column: emptyColumn });

  const qr = new QrDecomposition(
    new Matrix(weighted.map((row) => row.map((entry, column) => entry / (scales[column] ?? 1)))),
  );
  const triangle = qr.upperTriangularMatrix;
  for (let column = 0; column < columnCount; column += 1) {
    if (Math.abs(triangle.get(column, column)) < RANK_TOLERANCE) return no({ code: 'RANK', column });
  }
  const inverseTriangle = inverse(triangle);
  const unscaled = inverseTriangle.mmul(qr.orthogonalMatrix.transpose());
  const pseudoInverse = unscaled
    .to2DArray()
    .map((row, column) => row.map((entry, index) => (entry * (roots[index] ?? Number.NaN)) / (scales[column] ?? 1)));
  const weightedResponse = Matrix.columnVector(response.map((value, index) => value * (roots[index] ?? Number.NaN)));
  const coefficients = qr
    .solve(weightedResponse)
    .to1DArray()
    .map((value, column) => value / (scales[column] ?? 1));
  const covarianceUnscaled = inverseTriangle
    .mmul(inverseTriangle.transpose())
    .to2DArray()
    .map((row, i) => row.map((entry, j) => entry / ((scales[i] ?? 1) * (scales[j] ?? 1))));
  const weightedResidualSumOfSquares = weighted.reduce((sum, row, index) => {
    const fitted = row.reduce((total, entry, column) => total + entry * (coefficients[column] ?? 0), 0);
    return sum + ((response[index] ?? 0) * (roots[index] ?? 0) - fitted) ** 2;
  }, 0);
  return yes({
    coefficients,
    pseudoInverse,
    covarianceUnscaled,
    weightedResidualSumOfSquares,
    degreesOfFreedom: rowCount - columnCount,
  });
}
