import { gammaln } from 'simple-statistics';
import { betaFraction } from '../uncertainty/betaFraction.ts';

/** Degrees of freedom of a variance that is known; more would change no probability that is printed [1]. */
const KNOWN = 1e6;

/** Regularised incomplete beta function I_x(a, b) on the side where its continued fraction converges fast. */
function betaBelow(x: number, a: number, b: number): number {
  const logFront = gammaln(a + b) - gammaln(a) - gammaln(b) + a * Math.log(x) + b * Math.log1p(-x);
  return (Math.exp(logFront) * betaFraction(x, a, b)) / a;
}

/**
 * Probability that a ratio of two variances exceeds F by chance: Q(F|ν₁, ν₂) = I_x(ν₂/2, ν₁/2), x = ν₂/(ν₂ + ν₁ F).
 * With a known denominator ν₁ F is a chi-square.
 *
 * @param fRatio - F, at or above zero [1]
 * @param numerator - ν₁ > 0, not rounded [1]
 * @param denominator - ν₂ > 0, not rounded; null where the variance is known [1]
 * @returns probability of a ratio above F [1]
 * @throws RangeError if an argument lies outside its range
 *
 * Source: Abramowitz and Stegun (1964), 26.6.2 and 26.5.8; the fraction by Lentz's method.
 *
 * @example fUpperTail(9, 2, 2) // 0.1: for ν₁ = 2 it is (1 + 2 F/ν₂)^(−ν₂/2)
 */
export function fUpperTail(fRatio: number, numerator: number, denominator: number | null): number {
  const below = Math.min(denominator ?? KNOWN, KNOWN);
  if (!(fRatio >= 0 && Number.isFinite(fRatio))) throw new RangeError(`fRatio: ${fRatio}, expected zero or more`);
  if (!(numerator > 0 && Number.isFinite(numerator))) throw new RangeError(`numerator: ${numerator}, expected above 0`);
  if (!(below > 0)) throw new RangeError(`denominator: ${denominator}, expected above 0`);
  if (fRatio === 0) return 1;
  const a = below / 2;
  const b = numerator / 2;
  const total = below + numerator * fRatio;
  const x = below / total;
  const y = (numerator * fRatio) / total;
  if (y < (b + 1) / (a + b + 2)) return Math.max(0, 1 - betaBelow(y, b, a));
  return Math.min(1, betaBelow(x, a, b));
}
