import { normalCdf, normalQuantile } from './normal.ts';
import { coverageFactor } from './studentT.ts';

/** A rectangular part smaller than this leaves k as it is to within 0.3 % [1]. */
const SMALLEST_SHARE = 0.2;

const ROOT_TWO_PI = Math.sqrt(2 * Math.PI);
const MOST_HALVINGS = 60;

/** k is wanted to far more digits than are ever printed [1]. */
const NARROWEST = 1e-8;

/** ∫ Φ up to z: z Φ(z) + φ(z). */
function integralOfNormal(z: number): number {
  return z * normalCdf(z) + Math.exp((-z * z) / 2) / ROOT_TWO_PI;
}

/** P(|X| ≤ k) of a rectangular error with a share r of the variance and a normal one with the rest, X of unit variance. */
function probabilityWithin(k: number, share: number): number {
  const halfWidth = Math.sqrt(3 * share);
  const sigma = Math.sqrt(1 - share);
  if (sigma < 1e-6) return Math.min(1, k / halfWidth);
  const spread = integralOfNormal((k + halfWidth) / sigma) - integralOfNormal((k - halfWidth) / sigma);
  return (sigma / halfWidth) * spread - 1;
}

/**
 * Coverage factor where one rectangular error may dominate: k of that rectangle and a normal error for all the rest, scaled
 * as Student's t is to the normal where the variance is not well known.
 *
 * @param degreesOfFreedom - effective, of the combined variance; null: known [1]
 * @param rectangularShare - share of the variance of the largest single rectangular error, 0 to 1 [1]
 * @param coverageProbability - of the interval [1]
 * @returns k [1]
 *
 * Source: the convolution is derived here: with a = √(3r), σ = √(1 − r) and G(z) = z Φ(z) + φ(z),
 * P(|X| ≤ k) = (σ/a)[G((k + a)/σ) − G((k − a)/σ)] − 1. For r = 1 it gives 0.95 √3 = 1.65, as EA-4/02 has it for a dominant
 * rectangular contribution (from memory); JCGM 100:2008, G.3 for t.
 */
export function coverageFactorFor(
  degreesOfFreedom: number | null,
  rectangularShare: number,
  coverageProbability = 0.95,
): number {
  const byT = coverageFactor(degreesOfFreedom, coverageProbability);
  if (rectangularShare < SMALLEST_SHARE) return byT;
  const ofNormal = normalQuantile((1 + coverageProbability) / 2);
  let [low, high] = [0, ofNormal];
  for (let step = 0; step < MOST_HALVINGS && high - low > NARROWEST; step += 1) {
    const middle = (low + high) / 2;
    if (probabilityWithin(middle, Math.min(1, rectangularShare)) < coverageProbability) low = middle;
    else high = middle;
  }
  return (byT * high) / ofNormal;
}
