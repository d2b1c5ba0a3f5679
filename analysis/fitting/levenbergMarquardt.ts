import { inverse, Matrix, QrDecomposition } from 'ml-matrix';

export type LeastSquaresProblem = {
  /** Residuals, each over its standard uncertainty: their sum of squares is made least [m]. */
  readonly residuals: (parameters: readonly number[]) => ArrayLike<number>;
  /** ∂residual/∂parameter [m rows × p]; null: by differences. */
  readonly jacobian: ((parameters: readonly number[]) => readonly (readonly number[])[]) | null;
  /** Step of the forward difference for each parameter [p]; null: central differences, relative to the parameter's size. */
  readonly differenceSteps: readonly number[] | null;
  readonly mostIterations: number;
  /** The expected gain that ends the search, relative to the sum of squares; absent: rounding. Coarser where the residuals are. */
  readonly gainTolerance?: number;
};

export type NonlinearFit = {
  /** [p] */
  readonly parameters: readonly number[];
  /** At the solution [m]. */
  readonly residuals: readonly number[];
  /** At the solution [m × p]. */
  readonly jacobian: Matrix;
  readonly sumOfSquares: number;
  readonly hasConverged: boolean;
  readonly iterations: number;
};

/** The step or the expected gain is as small as rounding; relative to the parameters' spread and to the sum of squares [1]. */
const STEP_TOLERANCE = 1e-11;
const GAIN_TOLERANCE = 1e-15;
const FIRST_DAMPING = 1e-3;
/** A step whose gain is so much of what was expected was damped enough; too bold a one costs less than a new Jacobian [1]. */
const GOOD_GAIN = 0.25;
const DAMPING_FALLS_TO = 0.1;
const DAMPING_RISES_TO = 3;
const LEAST_DAMPING = 1e-14;
const MOST_DAMPING = 1e14;
const CENTRAL_STEP = Math.cbrt(Number.EPSILON);

/** Of residuals, each over its standard uncertainty [1]. */
export function sumOfSquares(values: readonly number[]): number {
  let sum = 0;
  for (const value of values) sum += value * value;
  return sum;
}

function shifted(parameters: readonly number[], index: number, by: number): readonly number[] {
  return parameters.map((value, other) => (other === index ? value + by : value));
}

function jacobianBy(problem: LeastSquaresProblem, parameters: readonly number[], here: readonly number[]): Matrix {
  if (problem.jacobian !== null) return new Matrix(problem.jacobian(parameters).map((row) => [...row]));
  const matrix = Matrix.zeros(here.length, parameters.length);
  for (const [column, value] of parameters.entries()) {
    const forward = problem.differenceSteps?.[column];
    const step = forward ?? CENTRAL_STEP * (value === 0 ? 1 : Math.abs(value));
    const up = problem.residuals(shifted(parameters, column, step));
    const down = forward === undefined ? problem.residuals(shifted(parameters, column, -step)) : here;
    const span = forward === undefined ? 2 * step : step;
    for (let row = 0; row < here.length; row += 1) {
      matrix.set(row, column, ((up[row] ?? Number.NaN) - (down[row] ?? Number.NaN)) / span);
    }
  }
  return matrix;
}

/** R and c = Qᵀr of the QR of a Jacobian, from that of J with r for its last column: Q itself is not needed. */
function triangular(jacobian: Matrix, residuals: readonly number[]): { triangle: Matrix; projected: Matrix } {
  const size = jacobian.columns;
  const both = new QrDecomposition(jacobian.clone().addColumn(size, [...residuals])).upperTriangularMatrix;
  return {
    triangle: both.subMatrix(0, size - 1, 0, size - 1),
    projected: both.subMatrix(0, size - 1, size, size),
  };
}

/** Step of least ‖R δ + c‖² + λ ‖D δ‖²: QR of R over √λ D. */
function dampedStep(
  triangle: Matrix,
  projected: Matrix,
  scales: readonly number[],
  damping: number,
): readonly number[] {
  const size = scales.length;
  const stacked = Matrix.zeros(2 * size, size);
  const target = Matrix.zeros(2 * size, 1);
  for (let row = 0; row < size; row += 1) {
    for (let column = row; column < size; column += 1) stacked.set(row, column, triangle.get(row, column));
    stacked.set(size + row, row, Math.sqrt(damping) * (scales[row] ?? 1));
    target.set(row, 0, -projected.get(row, 0));
  }
  return new QrDecomposition(stacked).solve(target).to1DArray();
}

/**
 * Least squares of a nonlinear model by Levenberg's and Marquardt's method: QR of the Jacobian, damping along its column
 * norms, so that the scale of a parameter does not matter. Parameters are unbounded: a positive one is fitted as its
 * logarithm.
 *
 * @param problem - residuals, and how they are differentiated [-]
 * @param start - where to begin; finite residuals there [p]
 * @returns parameters, residuals and Jacobian there, and whether the method converged [units of the caller]
 * @throws RangeError if the residuals at the start are not finite or fewer than the parameters
 *
 * Source: Marquardt (1963), J. SIAM 11, 431-441; Moré (1978), Lecture Notes in Mathematics 630 (scaling, gain ratio); how
 * damping falls and rises is our own, found on bent valleys of dry starts.
 */
export function levenbergMarquardt(problem: LeastSquaresProblem, start: readonly number[]): NonlinearFit {
  let parameters = start;
  let residuals: readonly number[] = Array.from(problem.residuals(parameters));
  let sum = sumOfSquares(residuals);
  if (!Number.isFinite(sum)) throw new RangeError('start: the residuals there are not finite');
  if (residuals.length < start.length)
    throw new RangeError(`residuals: ${residuals.length} for ${start.length} parameters`);
  let damping = FIRST_DAMPING;
  let jacobian = jacobianBy(problem, parameters, residuals);
  const scales = start.map(() => 0);
  const gainTolerance = problem.gainTolerance ?? GAIN_TOLERANCE;
  const ended = (hasConverged: boolean, iterations: number): NonlinearFit => ({
    parameters,
    residuals,
    jacobian,
    sumOfSquares: sum,
    hasConverged,
    iterations,
  });

  for (let iteration = 1; iteration <= problem.mostIterations; iteration += 1) {
    for (const [column, scale] of scales.entries()) {
      scales[column] = Math.max(scale, jacobian.getColumnVector(column).norm('frobenius')) || 1;
    }
    const { triangle, projected } = triangular(jacobian, residuals);
    for (;;) {
      const step = dampedStep(triangle, projected, scales, damping);
      const candidate = parameters.map((value, index) => value + (step[index] ?? 0));
      const predicted = sum - predictedSum(triangle, projected, step, sum);
      const tried = Array.from(problem.residuals(candidate));
      const triedSum = sumOfSquares(tried);
      const isSmall =
        predicted <= gainTolerance * sum ||
        step.every((by, index) => Math.abs(by) <= STEP_TOLERANCE * (Math.abs(parameters[index] ?? 0) + STEP_TOLERANCE));
      if (triedSum < sum) {
        const gain = (sum - triedSum) / predicted;
        parameters = candidate;
        residuals = tried;
        sum = triedSum;
        if (gain > GOOD_GAIN) damping = Math.max(LEAST_DAMPING, DAMPING_FALLS_TO * damping);
        jacobian = jacobianBy(problem, parameters, residuals);
        if (isSmall || sum === 0) return ended(true, iteration);
        break;
      }
      if (isSmall) return ended(true, iteration);
      damping *= DAMPING_RISES_TO;
      if (damping > MOST_DAMPING) return ended(false, iteration);
    }
  }
  return ended(false, problem.mostIterations);
}

/** ‖r + J δ‖² from R δ + Qᵀr, plus the part of r outside the columns. */
function predictedSum(triangle: Matrix, projected: Matrix, step: readonly number[], sum: number): number {
  let [inside, before] = [0, 0];
  for (let row = 0; row < step.length; row += 1) {
    let value = projected.get(row, 0);
    before += value * value;
    for (let column = row; column < step.length; column += 1) value += triangle.get(row, column) * (step[column] ?? 0);
    inside += value * value;
  }
  return sum - before + inside;
}

/** What is needed to propagate errors of the residuals into the parameters. */
export type FitSensitivities = {
  /** A with δparameters = A · δ(observed residual): (JᵀJ)⁻¹Jᵀ [p × m]. */
  readonly pseudoInverse: readonly (readonly number[])[];
  /** (JᵀJ)⁻¹ [p × p]. */
  readonly covarianceUnscaled: readonly (readonly number[])[];
};

/**
 * Pseudo-inverse and covariance of a fit from the QR of its Jacobian, columns scaled to unit length.
 *
 * @param jacobian - at the solution [m × p]
 * @returns A and (JᵀJ)⁻¹; null where a parameter is not determined by the residuals [-]
 *
 * Source: Golub and Van Loan, Matrix Computations, 5.3; JCGM 102:2011, 6.2.
 */
export function fitSensitivities(jacobian: Matrix): FitSensitivities | null {
  const scales = Array.from({ length: jacobian.columns }, (_, column) =>
    jacobian.getColumnVector(column).norm('frobenius'),
  );
  if (!scales.every((scale) => scale > 0 && Number.isFinite(scale))) return null;
  const qr = new QrDecomposition(jacobian.clone().divRowVector(scales));
  const triangle = qr.upperTriangularMatrix;
  for (let row = 0; row < scales.length; row += 1) if (Math.abs(triangle.get(row, row)) < 1e-12) return null;
  const inverseTriangle = inverse(triangle);
  const pseudoInverse = inverseTriangle.mmul(qr.orthogonalMatrix.transpose()).divColumnVector(scales);
  const covariance = inverseTriangle.mmul(inverseTriangle.transpose()).divColumnVector(scales).divRowVector(scales);
  return { pseudoInverse: pseudoInverse.to2DArray(), covarianceUnscaled: covariance.to2DArray() };
}

/**
 * The best of the fits from several starts: one start may end in a valley of its own.
 *
 * @param problem - residuals, and how they are differentiated [-]
 * @param starts - one or more, each with finite residuals [k × p]
 * @returns the converged fit of least sum of squares; where none converged, the least of all [units of the caller]
 * @throws RangeError if there is no start
 */
export function bestOfStarts(problem: LeastSquaresProblem, starts: readonly (readonly number[])[]): NonlinearFit {
  const [first, ...others] = starts.map((start) => levenbergMarquardt(problem, start));
  if (first === undefined) throw new RangeError('starts: none given');
  return others.reduce((best, fit) => {
    if (fit.hasConverged !== best.hasConverged) return fit.hasConverged ? fit : best;
    return fit.sumOfSquares < best.sumOfSquares ? fit : best;
  }, first);
}
