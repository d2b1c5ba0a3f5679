/** Solves the same weighted least-squares problem for one response after another; coefficients land in `solution`. */
export type SmallSolver = {
  /** [n rows × p columns, row by row], to be filled before `solve`. */
  readonly design: Float64Array;
  /** [n] */
  readonly response: Float64Array;
  /** [p] */
  readonly solution: Float64Array;
  /** False where no admissible combination of columns is independent; the solution is then all zero. */
  readonly solve: () => boolean;
};

/** A squared pivot of unit columns below this leaves no digits in normal equations [1]. */
const LEAST_PIVOT = 1e-11;

/** Every choice of columns that has the first in it, as bits; all columns first. */
function choicesOf(columnCount: number): readonly number[] {
  const all = 2 ** columnCount - 1;
  return Array.from({ length: all + 1 }, (_, index) => all - index).filter((bits) => (bits & 1) === 1);
}

/**
 * Weighted linear least squares for a handful of columns with all coefficients but the first not negative, by normal
 * equations and Cholesky on columns of unit length: made to be solved ten thousand times over. The best admissible choice
 * of columns is found by trying all; where the full solution is admissible it is the best.
 *
 * @param rowCount - n, above the number of columns [-]
 * @param columnCount - p, 1 to 4 [-]
 * @param weights - one over the variance of each response, > 0 [n, one over the square of the response's unit]
 * @returns a solver with places for design and response [-]
 * @throws RangeError if there are more than four columns, or not more rows than columns
 *
 * Source: Golub and Van Loan, Matrix Computations, 5.3.2 (normal equations by Cholesky); Lawson and Hanson (1974), 23
 * (not negative). The residual sum is yᵀWy − xᵀXᵀWy, so the best choice has the largest xᵀXᵀWy.
 */
export function smallLeastSquares(rowCount: number, columnCount: number, weights: readonly number[]): SmallSolver {
  if (!(columnCount >= 1 && columnCount <= 4)) throw new RangeError(`columnCount: ${columnCount}, expected 1 to 4`);
  if (rowCount <= columnCount) throw new RangeError(`rowCount: ${rowCount}, expected over ${columnCount}`);
  const p = columnCount;
  const design = new Float64Array(rowCount * p);
  const response = new Float64Array(rowCount);
  const solution = new Float64Array(p);
  const weightOf = Float64Array.from(weights);
  const gram = new Float64Array(p * p);
  const moment = new Float64Array(p);
  const scale = new Float64Array(p);
  const lower = new Float64Array(p * p);
  const trial = new Float64Array(p);
  const kept = new Int32Array(p);
  const choices = choicesOf(p);

  const read = (array: Float64Array | Int32Array, index: number): number => array[index] ?? Number.NaN;

  const gather = (): void => {
    gram.fill(0);
    moment.fill(0);
    for (let row = 0; row < rowCount; row += 1) {
      const weight = read(weightOf, row);
      const weighted = weight * read(response, row);
      for (let i = 0; i < p; i += 1) {
        const entry = read(design, row * p + i);
        moment[i] = read(moment, i) + entry * weighted;
        for (let j = 0; j <= i; j += 1) {
          gram[i * p + j] = read(gram, i * p + j) + weight * entry * read(design, row * p + j);
        }
      }
    }
    for (let i = 0; i < p; i += 1) scale[i] = Math.sqrt(read(gram, i * p + i));
  };

  /** Solves for one choice of columns into `trial`; how much it explains, or NaN where it is no admissible solution. */
  const explainedBy = (bits: number): number => {
    let count = 0;
    for (let i = 0; i < p; i += 1) {
      if ((bits >> i) & 1) {
        kept[count] = i;
        count += 1;
      }
    }
    trial.fill(0);
    for (let i = 0; i < count; i += 1) {
      const column = read(kept, i);
      for (let j = 0; j <= i; j += 1) {
        const other = read(kept, j);
        let sum = read(gram, column * p + other) / (read(scale, column) * read(scale, other));
        for (let k = 0; k < j; k += 1) sum -= read(lower, i * p + k) * read(lower, j * p + k);
        if (i !== j) lower[i * p + j] = sum / read(lower, j * p + j);
        else if (sum > LEAST_PIVOT) lower[i * p + i] = Math.sqrt(sum);
        else return Number.NaN;
      }
      let sum = read(moment, column) / read(scale, column);
      for (let k = 0; k < i; k += 1) sum -= read(lower, i * p + k) * read(trial, k);
      trial[i] = sum / read(lower, i * p + i);
    }
    let explained = 0;
    for (let i = 0; i < count; i += 1) explained += read(trial, i) ** 2;
    for (let i = count - 1; i >= 0; i -= 1) {
      let sum = read(trial, i);
      for (let k = i + 1; k < count; k += 1) sum -= read(lower, k * p + i) * read(trial, k);
      trial[i] = sum / read(lower, i * p + i);
      if (i > 0 && read(trial, i) < 0) return Number.NaN;
    }
    return explained;
  };

  const keepTrial = (bits: number): void => {
    solution.fill(0);
    let count = 0;
    for (let i = 0; i < p; i += 1) {
      if (!((bits >> i) & 1)) continue;
      solution[i] = read(trial, count) / read(scale, i);
      count += 1;
    }
  };

  const solve = (): boolean => {
    gather();
    let best = -1;
    let bestBits = 0;
    for (const bits of choices) {
      const explained = explainedBy(bits);
      if (!(explained > best)) continue;
      best = explained;
      bestBits = bits;
      keepTrial(bits);
      if (bits === choices[0]) break;
    }
    if (bestBits === 0) solution.fill(0);
    return bestBits !== 0;
  };
  return { design, response, solution, solve };
}
