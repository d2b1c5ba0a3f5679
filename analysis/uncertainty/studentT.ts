import { gammaln } from 'simple-statistics';
import { betaFraction } from './betaFraction.ts';
import { invertCdf, normalCdf, normalQuantile } from './normal.ts';

/** From here up the asymptotic series of the gamma function is right to double precision [1]. */
const SERIES_FROM = 50;

/** Above, the continued fraction loses digits and {@link equivalentNormal} does not [1]. */
const CLOSE_TO_NORMAL = 1000;

/** ln Γ(a + 1/2) − ln Γ(a); for large a the difference of two logarithms would lose its digits. */
function logGammaHalfStep(a: number): number {
  if (a < SERIES_FROM) return gammaln(a + 0.5) - gammaln(a);
  return Math.log(a) / 2 - 1 / (8 * a) + 1 / (192 * a ** 3) - 1 / (640 * a ** 5);
}

/** P(|T| > t) = I_x(ν/2, 1/2) with x = ν/(ν + t²), a regularised incomplete beta function. */
function bothTails(t: number, degreesOfFreedom: number): number {
  if (t === 0) return 1;
  const a = degreesOfFreedom / 2;
  const x = degreesOfFreedom / (degreesOfFreedom + t * t);
  const y = (t * t) / (degreesOfFreedom + t * t);
  if (x === 0) return 0;
  const front =
    Math.exp(logGammaHalfStep(a) - Math.log(Math.PI) / 2 - a * Math.log1p((t * t) / degreesOfFreedom)) * Math.sqrt(y);
  return x < (a + 1) / (a + 2.5) ? (front * betaFraction(x, a, 0.5)) / a : 1 - 2 * front * betaFraction(y, 0.5, a);
}

/**
 * The normal deviate with as much probability below it as t has, for many degrees of freedom: first term of Hill's
 * expansion; above ν = 1000 the next one is below 2e-11 for |t| ≤ 6, and below 2e-13 for |t| ≤ 2.
 * Hill (1970), Algorithm 395: Student's t-distribution, Communications of the ACM 13, 617.
 */
function equivalentNormal(t: number, degreesOfFreedom: number): number {
  const a = degreesOfFreedom - 0.5;
  const y = a * Math.log1p((t * t) / degreesOfFreedom);
  return Math.sign(t) * Math.sqrt(y) * (1 + (y + 3) / (48 * a * a));
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
 * Source: Abramowitz and Stegun (1964), 26.7.1 with 26.5.27: P(|T| > t) = I_x(ν/2, 1/2), x = ν/(ν + t²); above
 * ν = 1000 Hill (1970), since effective degrees of freedom may be of any size.
 *
 * @example studentTCdf(1, 1) // 0.75
 */
export function studentTCdf(t: number, degreesOfFreedom: number): number {
  requireDegreesOfFreedom(degreesOfFreedom);
  if (degreesOfFreedom > CLOSE_TO_NORMAL) return normalCdf(equivalentNormal(t, degreesOfFreedom));
  const tail = bothTails(t, degreesOfFreedom) / 2;
  return t >= 0 ? 1 - tail : tail;
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
  const logFront = logGammaHalfStep(degreesOfFreedom / 2) - Math.log(degreesOfFreedom * Math.PI) / 2;
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
 *
 * @example coverageFactor(1) // 12.7062047362: the first line of table G.2
 */
export function coverageFactor(degreesOfFreedom: number | null, coverageProbability = 0.95): number {
  const probability = (1 + coverageProbability) / 2;
  return degreesOfFreedom === null ? normalQuantile(probability) : studentTQuantile(probability, degreesOfFreedom);
}
