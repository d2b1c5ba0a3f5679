/** A stretch of time [s]. */
export type TimeSpan = readonly [fromS: number, toS: number];

/** Nobody looks closer than this [s]. */
const SHORTEST_S = 0.01;

/** The span within the whole, as long as it was where it fits. */
function within([fromS, toS]: TimeSpan, [first, last]: TimeSpan): TimeSpan {
  const length = Math.min(last - first, Math.max(SHORTEST_S, toS - fromS));
  const from = Math.min(Math.max(first, fromS), last - length);
  return [from, from + length];
}

/**
 * A closer or a wider look: the moment under the hand stays where it is.
 *
 * @param span - shown now [s]
 * @param whole - what there is [s]
 * @param factor - length of the new span over that of the old [1]
 * @param atS - stays in its place [s]
 */
export function zoomed(span: TimeSpan, whole: TimeSpan, factor: number, atS: number): TimeSpan {
  const [fromS, toS] = span;
  const share = (atS - fromS) / (toS - fromS);
  const length = Math.max(SHORTEST_S, (toS - fromS) * factor);
  return within([atS - share * length, atS + (1 - share) * length], whole);
}

/** The same length, so many seconds later. */
export function shifted([fromS, toS]: TimeSpan, whole: TimeSpan, byS: number): TimeSpan {
  return within([fromS + byS, toS + byS], whole);
}

/** Between two moments, whichever comes first. */
export function between(aS: number, bS: number, whole: TimeSpan): TimeSpan {
  return within([Math.min(aS, bS), Math.max(aS, bS)], whole);
}

/** Decimals that tell a thousandth of a span apart [-]. */
export function decimalsOf([fromS, toS]: TimeSpan): number {
  return Math.min(4, Math.max(0, 3 - Math.floor(Math.log10(toS - fromS))));
}

/** As it stands in an address; null for what is no span of the whole. */
export function spanFrom(from: string | null, to: string | null, whole: TimeSpan): TimeSpan | null {
  if (from === null || to === null) return null;
  const [fromS, toS] = [Number(from), Number(to)];
  return toS > fromS && fromS < whole[1] && toS > whole[0] ? within([fromS, toS], whole) : null;
}
