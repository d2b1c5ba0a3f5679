/** Longer series are averaged in equal groups first: the variance of their mean is the same, and the sums are short. */
export const MOST_GROUPS = 2048;

/** When so many autocorrelations are all positive, neighbours say nearly the same: they are averaged in pairs. */
const LAGS_BEFORE_HALVING = 8;

/** A series is not halved below this many values. */
const LEAST_FOR_HALVING = 64;

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
  const deviations = new Float64Array(values);
  const base = deviations[0] ?? 0;
  let sum = 0;
  for (let index = 0; index < deviations.length; index += 1) sum += (deviations[index] ?? 0) - base;
  const mean = base + sum / deviations.length;
  for (let index = 0; index < deviations.length; index += 1) deviations[index] = (deviations[index] ?? 0) - mean;
  return deviations;
}

/** Σ d_i d_{i+lag}. */
function laggedProduct(deviations: Float64Array, lag: number): number {
  let sum = 0;
  for (let index = lag; index < deviations.length; index += 1) {
    sum += (deviations[index] ?? 0) * (deviations[index - lag] ?? 0);
  }
  return sum;
}

/** Means of neighbours, `size` at a time; a rest too short for a group is left out. */
function groupMeans(values: ArrayLike<number>, size: number): Float64Array {
  const means = new Float64Array(Math.floor(values.length / size));
  for (let group = 0; group < means.length; group += 1) {
    let sum = 0;
    for (let index = group * size; index < (group + 1) * size; index += 1) sum += values[index] ?? 0;
    means[group] = sum / size;
  }
  return means;
}

/**
 * Variance of the mean of a correlated series: (Σ d²/n)/n · (1 + 2 Σ (1 − k/n) ρ_k), summed up to the first
 * autocorrelation that is not positive. Where the first eight are all positive, neighbours are averaged in pairs and the
 * sum begins anew: the mean, and with it its variance, stays the same, and a long memory costs no long sum.
 *
 * @param values - the series [n values, oldest first]
 * @returns variance of the mean; 0 for a series that never changes [square of the values' unit]
 *
 * Source: variance of the mean of a stationary series, e.g. Box, Jenkins and Reinsel, Time Series Analysis, 2.1.5; truncation
 * at the first non-positive value: common practice, no source; batch means: Law and Carson, Operations Research 27 (1979).
 */
export function varianceOfMean(values: ArrayLike<number>): number {
  let deviations = deviationsOf(values);
  for (;;) {
    const count = deviations.length;
    const square = laggedProduct(deviations, 0);
    if (square === 0) return 0;
    const lagCount = count >= LEAST_FOR_HALVING ? LAGS_BEFORE_HALVING : count - 1;
    let sum = 0;
    let lag = 1;
    for (; lag <= lagCount; lag += 1) {
      const correlation = laggedProduct(deviations, lag) / square;
      if (correlation <= 0) break;
      sum += (1 - lag / count) * correlation;
    }
    if (lag <= lagCount || count < LEAST_FOR_HALVING) return ((1 + 2 * sum) * square) / count ** 2;
    deviations = deviationsOf(groupMeans(deviations, 2));
  }
}

/**
 * How many independent readings a correlated series is worth: its variance over the variance of its mean, which for a
 * short series is n / (1 + 2 Σ (1 − k/n) ρ_k). A series that never changes counts as one reading: a frozen value repeats
 * itself. From 2048 readings up the series is averaged in equal groups first; the relative standard error of the
 * result is then about √(2 (2 M + 1)/N) for N groups (1024 to 2048) and M lags summed, 7 % where the groups are independent.
 *
 * @param values - the series [n readings, oldest first]
 * @returns effective number, 1 to n [1]
 *
 * Source: see varianceOfMean; standard error by Bartlett's formula, e.g. Priestley, Spectral Analysis and Time Series, 5.3.
 */
export function effectiveReadingCount(values: ArrayLike<number>): number {
  const groups = groupMeans(values, Math.max(1, Math.ceil(values.length / MOST_GROUPS)));
  const deviations = deviationsOf(values);
  return effectiveCount(values.length, laggedProduct(deviations, 0) / values.length, varianceOfMean(groups));
}

/**
 * The same from variances already at hand.
 *
 * @param count - how many readings, 1 or more [1]
 * @param variance - of the readings, Σ d²/n [square of their unit]
 * @param ofMean - variance of their mean [square of their unit]
 * @returns effective number, 1 to n; 1 for readings that never change [1]
 */
export function effectiveCount(count: number, variance: number, ofMean: number): number {
  if (count <= 1 || variance === 0) return 1;
  return ofMean === 0 ? count : Math.min(count, Math.max(1, variance / ofMean));
}
