/** Right-hand side of y' = f(t, y): writes the slopes into the third argument. */
export type Slopes = (time: number, state: Float64Array, into: Float64Array) => void;

export type RosenbrockStepper = {
  /** Takes the Jacobian and ∂f/∂t at a point, whose slope may be known; every step from there uses them. */
  readonly linearise: (time: number, state: Float64Array, knownSlope?: Float64Array) => void;
  /** One step of a given size from the linearised point: the new state, and in `error` its estimated error. */
  readonly step: (size: number, next: Float64Array, error: Float64Array) => void;
};

/** Coefficients of RODAS in the form that needs no product with the Jacobian; stages 5 and 6 embed the third order. */
const GAMMA = 0.25;
const A: readonly (readonly number[])[] = [
  [],
  [1.544],
  [0.9466785280815826, 0.2557011698983284],
  [3.314825187068521, 2.896124015972201, 0.9986419139977817],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895],
  [1.221224509226641, 6.019134481288629, 12.53708332932087, -0.687886036105895, 1],
];
const C: readonly (readonly number[])[] = [
  [],
  [-5.6688],
  [-2.430093356833875, -0.2063599157091915],
  [-0.1073529058151375, -9.594562251023355, -20.47028614809616],
  [7.496443313967647, -10.24680431464352, -33.99990352819905, 11.7089089320616],
  [8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054],
];
const STAGE_TIME: readonly number[] = [0, 0.386, 0.21, 0.63, 1, 1];
const TIME_SLOPE: readonly number[] = [0.25, -0.1043, 0.1035, -0.0362, 0, 0];

const DIFFERENCE = Math.sqrt(Number.EPSILON);

/** Gaussian elimination with row exchange, in place; the rows' order goes into `pivots`. */
function factorise(matrix: Float64Array, size: number, pivots: Int32Array): void {
  for (let column = 0; column < size; column += 1) {
    let best = column;
    for (let row = column + 1; row < size; row += 1) {
      if (Math.abs(at(matrix, row * size + column)) > Math.abs(at(matrix, best * size + column))) best = row;
    }
    pivots[column] = best;
    if (best !== column) {
      for (let k = 0; k < size; k += 1) {
        const kept = at(matrix, column * size + k);
        matrix[column * size + k] = at(matrix, best * size + k);
        matrix[best * size + k] = kept;
      }
    }
    for (let row = column + 1; row < size; row += 1) {
      const share = at(matrix, row * size + column) / at(matrix, column * size + column);
      matrix[row * size + column] = share;
      for (let k = column + 1; k < size; k += 1) {
        matrix[row * size + k] = at(matrix, row * size + k) - share * at(matrix, column * size + k);
      }
    }
  }
}

function solve(matrix: Float64Array, size: number, pivots: Int32Array, vector: Float64Array): void {
  for (let column = 0; column < size; column += 1) {
    const pivot = pivots[column] ?? column;
    const kept = at(vector, column);
    vector[column] = at(vector, pivot);
    vector[pivot] = kept;
  }
  for (let row = 1; row < size; row += 1) {
    let sum = at(vector, row);
    for (let k = 0; k < row; k += 1) sum -= at(matrix, row * size + k) * at(vector, k);
    vector[row] = sum;
  }
  for (let row = size - 1; row >= 0; row -= 1) {
    let sum = at(vector, row);
    for (let k = row + 1; k < size; k += 1) sum -= at(matrix, row * size + k) * at(vector, k);
    vector[row] = sum / at(matrix, row * size + row);
  }
}

function at(values: Float64Array, index: number): number {
  return values[index] ?? Number.NaN;
}

/**
 * A Rosenbrock method of fourth order with an embedded third-order one, six stages, stiffly accurate: one linear system of
 * the state's size per stage, no iteration. Jacobian and time slope by forward differences.
 *
 * @param slopes - f of y' = f(t, y) [unit of y per unit of t]
 * @param scales - a typical size of each component, > 0: what its difference step is taken from where it is zero [n]
 * @returns the stepper; it holds its own work space, so one is made for each integration [-]
 *
 * Source: Hairer and Wanner, Solving Ordinary Differential Equations II (2nd ed. 1996), IV.7, method RODAS; its
 * coefficients are checked by the order that the steps show.
 */
export function rosenbrockStepper(slopes: Slopes, scales: readonly number[]): RosenbrockStepper {
  const size = scales.length;
  const start = new Float64Array(size);
  const startSlope = new Float64Array(size);
  const timeSlope = new Float64Array(size);
  const jacobian = new Float64Array(size * size);
  const matrix = new Float64Array(size * size);
  const pivots = new Int32Array(size);
  const stage = new Float64Array(size);
  const slope = new Float64Array(size);
  const increments = Array.from({ length: 6 }, () => new Float64Array(size));
  let startTime = 0;

  function linearise(time: number, state: Float64Array, knownSlope?: Float64Array): void {
    startTime = time;
    start.set(state);
    if (knownSlope === undefined) slopes(time, start, startSlope);
    else startSlope.set(knownSlope);
    stage.set(state);
    for (let column = 0; column < size; column += 1) {
      const step = DIFFERENCE * Math.max(Math.abs(at(start, column)), scales[column] ?? 1);
      stage[column] = at(start, column) + step;
      slopes(time, stage, slope);
      for (let row = 0; row < size; row += 1) {
        jacobian[row * size + column] = (at(slope, row) - at(startSlope, row)) / step;
      }
      stage[column] = at(start, column);
    }
    const timeStep = DIFFERENCE * Math.max(Math.abs(time), 1);
    slopes(time + timeStep, start, slope);
    for (let row = 0; row < size; row += 1) timeSlope[row] = (at(slope, row) - at(startSlope, row)) / timeStep;
  }

  function step(stepSize: number, next: Float64Array, error: Float64Array): void {
    for (let index = 0; index < size * size; index += 1) matrix[index] = -at(jacobian, index);
    for (let row = 0; row < size; row += 1)
      matrix[row * size + row] = at(matrix, row * size + row) + 1 / (GAMMA * stepSize);
    factorise(matrix, size, pivots);
    for (const [index, increment] of increments.entries()) {
      const a = A[index] ?? [];
      const c = C[index] ?? [];
      for (let row = 0; row < size; row += 1) {
        let sum = at(start, row);
        let carried = 0;
        for (let k = 0; k < index; k += 1) {
          const earlier = increments[k]?.[row] ?? 0;
          sum += (a[k] ?? 0) * earlier;
          carried += (c[k] ?? 0) * earlier;
        }
        stage[row] = sum;
        increment[row] = carried / stepSize + stepSize * (TIME_SLOPE[index] ?? 0) * at(timeSlope, row);
      }
      if (index === 0) slope.set(startSlope);
      else slopes(startTime + (STAGE_TIME[index] ?? 0) * stepSize, stage, slope);
      for (let row = 0; row < size; row += 1) increment[row] = at(increment, row) + at(slope, row);
      solve(matrix, size, pivots, increment);
    }
    const last = increments[5];
    for (let row = 0; row < size; row += 1) {
      error[row] = last?.[row] ?? Number.NaN;
      next[row] = at(stage, row) + at(error, row);
    }
  }

  return { linearise, step };
}
