import { fUpperTail } from '../../delivery/fDistribution.ts';
import { normalCdf } from '../../uncertainty/normal.ts';

/** Means further out than this many of their standard deviations count for nothing [1]. */
const FARTHEST = 8;
/** Parts of the integral over the mean, by Simpson's rule. */
const PARTS = 64;
/** Halvings of the bracket of a root: beyond what is ever printed. */
const HALVINGS = 40;

function rootOf(rising: (x: number) => number, high: number): number {
  let [low, top] = [0, high];
  while (rising(top) < 0) top *= 2;
  for (let step = 0; step < HALVINGS; step += 1) {
    const middle = (low + top) / 2;
    if (rising(middle) < 0) low = middle;
    else top = middle;
  }
  return (low + top) / 2;
}

/** Half the width about a mean that is off by so much, in standard deviations, that holds the share. */
function halfWidth(off: number, share: number): number {
  return rootOf((r) => normalCdf(off + r) - normalCdf(off - r) - share, off + 2);
}

/**
 * Factor k of a two-sided tolerance interval, mean ± k s: with the confidence it holds the share of all further values, where
 * they are normal and neither their mean nor their deviation is known. With f = n − 1 and r(x) the half width about a mean that
 * is off by x: confidence = ∫ P(χ²_f ≥ f r(x)²/k²) √n φ(√n x) dx.
 *
 * @param count - n, values that mean and s are of, 2 or more [1]
 * @param share - of the further values, strictly between 0 and 1 [1]
 * @param confidence - strictly between 0 and 1 [1]
 * @returns k [1]
 * @throws RangeError if the count is not a whole number from 2 up
 *
 * Source: Odeh and Owen (1980), Tables for Normal Tolerance Limits; ISO 16269-6 tabulates the same factors.
 */
export function toleranceFactor(count: number, share = 0.95, confidence = 0.95): number {
  if (!(Number.isInteger(count) && count >= 2)) throw new RangeError(`count: ${count} is not a whole number from 2 up`);
  const freedom = count - 1;
  const stepSize = FARTHEST / PARTS;
  const nodes = Array.from({ length: PARTS + 1 }, (_, index) => {
    const deviations = index * stepSize;
    const simpson = index === 0 || index === PARTS ? 1 : index % 2 === 0 ? 2 : 4;
    return {
      weight: ((simpson * stepSize) / 3) * 2 * (Math.exp(-(deviations ** 2) / 2) / Math.sqrt(2 * Math.PI)),
      half: halfWidth(deviations / Math.sqrt(count), share),
    };
  });
  const reached = (k: number): number =>
    nodes.reduce((sum, { weight, half }) => sum + weight * fUpperTail((half / k) ** 2, freedom, null), 0);
  return rootOf((k) => reached(k) - confidence, 2);
}
