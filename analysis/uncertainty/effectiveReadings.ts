/**
 * Autocorrelation of a series at a lag: Σ (x_i − x̄)(x_{i+lag} − x̄) / Σ (x_i − x̄)².
 *
 * @param values - the series [n readings, oldest first]
 * @param lag - how many readings apart [1]
 * @returns autocorrelation; 0 for a series that never changes [1]
 *
 * Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.12.
 *
 * @example autocorrelation([1, 2, 3, 4], 1) // 0.25
 */
export function autocorrelation(values: ArrayLike<number>, lag: number): number {
  const deviations = deviationsOf(values);
  const square = laggedProduct(deviations, 0);
  return square === 0 ? 0 : laggedProduct(deviations, lag) / square;
}

function deviationsOf(values: ArrayLike<number>): Float64Array {
  const deviations = Float64Array.from(values);
  const mean = deviations.reduce((sum, value) => sum + value / deviations.length, 0);
  return deviations.map((value) => value - mean);
}

/** Σ d_i d_{i+lag}. */
function laggedProduct(deviations: Float64Array, lag: number): number {
  let sum = 0;
  for (let index = lag; index < deviations.length; index += 1) {
    sum += (deviations[index] ?? 0) * (deviations[index - lag] ?? 0);
  }
  return sum;
}

/**
 * How many independent readings a correlated series is worth: n / (1 + 2 Σ (1 − k/n) ρ_k), summed up to the first
 * autocorrelation that is not positive. A series that never changes counts as one reading: a frozen value repeats itself.
 *
 * @param values - the series [n readings, oldest first]
 * @returns effective number, 1 to n [1]
 *
 * Source: variance of the mean of a stationary series, e.g. Box, Jenkins and Reinsel, Time Series Analysis, 2.1.5;
 * truncation at the first non-positive value: common practice, no source.
 */
export function effectiveReadingCount(values: ArrayLike<number>): number {
  const count = values.length;
  if (count <= 1) return 1;
  if (Array.from(values).every((value) => value === values[0])) return 1;
  const deviations = deviationsOf(values);
  const square = laggedProduct(deviations, 0);
  let sum = 0;
  for (let lag = 1; lag < count; lag += 1) {
    const correlation = laggedProduct(deviations, lag) / square;
    if (correlation <= 0) break;
    sum += (1 - lag / count) * correlation;
  }
  return Math.min(count, Math.max(1, count / (1 + 2 * sum)));
}
