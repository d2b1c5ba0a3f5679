/** Terms of the series and of the continued fraction below; both have converged to double precision by then. */
const MOST_TERMS = 200;

/** √(2π), of the normal density. */
const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);

/** Below this distance the series converges fast; above it the continued fraction does. */
const SERIES_UP_TO = 3;

/**
 * Standard normal distribution function Φ(x), to double precision.
 *
 * @param x - standardised value [1]
 * @returns probability of a value at or below x [1]
 *
 * Source: Abramowitz and Stegun (1964), 26.2.11 (series) and 26.2.14 (continued fraction).
 *
 * @example normalCdf(0) // 0.5
 */
export function normalCdf(x: number): number {
  const distance = Math.abs(x);
  const density = Math.exp((-distance * distance) / 2) / ROOT_TWO_PI;
  if (distance <= SERIES_UP_TO) {
    let term = distance;
    let sum = distance;
    for (let k = 1; k < MOST_TERMS && term > sum * 1e-17; k += 1) {
      term *= (distance * distance) / (2 * k + 1);
      sum += term;
    }
    return x >= 0 ? 0.5 + density * sum : 0.5 - density * sum;
  }
  let fraction = distance;
  for (let k = MOST_TERMS; k >= 1; k -= 1) fraction = distance + k / fraction;
  const tail = density / fraction;
  return x >= 0 ? 1 - tail : tail;
}

/**
 * Quantile of the standard normal distribution: x with Φ(x) = probability.
 *
 * @param probability - strictly between 0 and 1 [1]
 * @returns standardised value [1]
 * @throws RangeError if the probability is not strictly between 0 and 1
 *
 * Source: Newton's method on Φ, started at zero and kept within a bracket; definition in JCGM 100:2008, G.1.
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`probability: ${probability} is not strictly between 0 and 1`);
  }
  // The tail is searched where it is small: 1 − Φ would lose digits.
  if (probability > 0.5) return -normalQuantile(1 - probability);
  return invertCdf(normalCdf, (x) => Math.exp((-x * x) / 2) / ROOT_TWO_PI, probability, -40, 0);
}

/**
 * Inverts a rising distribution function by Newton steps that never leave a shrinking bracket.
 *
 * @param cdf - distribution function [1]
 * @param density - its derivative [1]
 * @param probability - value sought [1]
 * @param low - below the quantile [1]
 * @param high - above the quantile [1]
 * @returns the quantile [1]
 */
export function invertCdf(
  cdf: (x: number) => number,
  density: (x: number) => number,
  probability: number,
  low: number,
  high: number,
): number {
  let [from, to] = [low, high];
  let x = (from + to) / 2;
  for (let step = 0; step < MOST_TERMS; step += 1) {
    const excess = cdf(x) - probability;
    if (excess === 0) return x;
    if (excess > 0) to = x;
    else from = x;
    const newton = x - excess / density(x);
    const next = newton > from && newton < to ? newton : (from + to) / 2;
    if (Math.abs(next - x) <= 1e-15 * Math.abs(x)) return next;
    x = next;
  }
  return x;
}
