import { gammaln } from 'simple-statistics';
import { invertCdf, normalQuantile } from './normal.ts';

const MOST_TERMS = 500;
const TINY = 1e-300;

/** Continued fraction of the incomplete beta function by Lentz's method; Numerical Recipes, 6.4. */
function betaFraction(x: number, a: number, b: number): number {
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let fraction = d;
  for (let m = 1; m <= MOST_TERMS; m += 1) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    fraction *= d * c;
    if (Math.abs(d * c - 1) < 1e-16) break;
  }
  return fraction;
}

function nonZero(value: number): number {
  return Math.abs(value) < TINY ? TINY : value;
}

/** Regularised incomplete beta function I_x(a, b). */
function incompleteBeta(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  const front = Math.exp(gammaln(a + b) - gammaln(a) - gammaln(b) + a * Math.log(x) + b * Math.log1p(-x));
  return x < (a + 1) / (a + b + 2) ? (front * betaFraction(x, a, b)) / a : 1 - (front * betaFraction(1 - x, b, a)) / b;
}

function requireDegreesOfFreedom(degreesOfFreedom: number): void {
  if (!(degreesOfFreedom > 0 && Number.isFinite(degreesOfFreedom))) {
    throw new RangeError(`degreesOfFreedom: ${degreesOfFreedom} is not a number above zero`);
  }
}

/**
 * Distribution function of Student's t with any real degrees of freedom.
 *
 * @param t - standardised value [1]
 * @param degreesOfFreedom - ν > 0, not rounded [1]
 * @returns probability of a value at or below t [1]
 * @throws RangeError if ν is not a number above zero
 *
 * Source: Abramowitz and Stegun (1964), 26.7.1 with 26.5.27: P(|T| > t) = I_x(ν/2, 1/2), x = ν/(ν + t²).
 *
 * @example studentTCdf(1, 1) // 0.75
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireDegreesOfFreedom(degreesOfFreedom);
  const bothTails = incompleteBeta(degreesOfFreedom / (degreesOfFreedom + t * t), degreesOfFreedom / 2, 0.5);
  return t >= 0 ? 1 - bothTails / 2 : bothTails / 2;
}

/**
 * Quantile of Student's t.
 *
 * @param probability - strictly between 0 and 1 [1]
 * @param degreesOfFreedom - ν > 0, not rounded [1]
 * @returns t with P(T ≤ t) = probability [1]
 * @throws RangeError if an argument lies outside its range
 */
export function studentTQuantile(probability: number, degreesOfFreedom: number): number {
  requireDegreesOfFreedom(degreesOfFreedom);
  if (!(probability > 0 && probability < 1)) {
    throw new RangeError(`probability: ${probability} is not strictly between 0 and 1`);
  }
  if (probability === 0.5) return 0;
  if (probability > 0.5) return -studentTQuantile(1 - probability, degreesOfFreedom);
  const logFront =
    gammaln((degreesOfFreedom + 1) / 2) - gammaln(degreesOfFreedom / 2) - Math.log(degreesOfFreedom * Math.PI) / 2;
  const density = (t: number): number =>
    Math.exp(logFront - ((degreesOfFreedom + 1) / 2) * Math.log1p((t * t) / degreesOfFreedom));
  let low = -1;
  while (studentTCdf(low, degreesOfFreedom) > probability) low *= 4;
  return invertCdf((t) => studentTCdf(t, degreesOfFreedom), density, probability, low, 0);
}

/**
 * Coverage factor k of a two-sided interval.
 *
 * @param degreesOfFreedom - effective ν, not rounded; null where the uncertainty is taken as known [1]
 * @param coverageProbability - strictly between 0 and 1 [1]
 * @returns k, so that U = k u [1]
 *
 * Source: JCGM 100:2008, G.3.
 */
export function coverageFactor(degreesOfFreedom: number | null, coverageProbability = 0.95): number {
  const probability = (1 + coverageProbability) / 2;
  return degreesOfFreedom === null ? normalQuantile(probability) : studentTQuantile(probability, degreesOfFreedom);
}
