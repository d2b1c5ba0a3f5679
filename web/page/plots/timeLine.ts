import { firstAtOrAfter } from '../../../analysis/readings.ts';
import type { TimeSpan } from './timeSpan.ts';

type Values = { readonly elapsedS: readonly number[]; readonly values: readonly (number | null)[] };

/** Lowest and highest within a span of time, with some air, and never less than the least span apart. */
export function spanOfValues(series: readonly Values[], span: TimeSpan, leastSpan: number): readonly [number, number] {
  let [low, high] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (const { elapsedS, values } of series) {
    const end = firstAtOrAfter(elapsedS, span[1]);
    for (let at = Math.max(0, firstAtOrAfter(elapsedS, span[0]) - 1); at <= end; at += 1) {
      const value = values[at];
      if (value === null || value === undefined) continue;
      if (value < low) low = value;
      if (value > high) high = value;
    }
  }
  if (low > high) return [0, leastSpan];
  const air = Math.max((leastSpan - (high - low)) / 2, 0.05 * (high - low));
  return [low - air, high + air];
}

/** Rounded; written in half the time that toFixed takes. */
function tenths(px: number): number {
  return Math.round(10 * px) / 10;
}

/** The line of what is there, broken where a value is missing; what lies before or behind the span is cut off at its edge. */
export function linePath(
  elapsedS: readonly number[],
  values: readonly (number | null)[],
  span: TimeSpan,
  x: (timeS: number) => number,
  y: (value: number) => number,
): string {
  const [fromS, toS] = span;
  const end = Math.min(elapsedS.length - 1, firstAtOrAfter(elapsedS, toS));
  const parts: string[] = [];
  let pen = 'M';
  for (let at = Math.max(0, firstAtOrAfter(elapsedS, fromS) - 1); at <= end; at += 1) {
    const value = values[at];
    const timeS = elapsedS[at] ?? 0;
    if (value === null || value === undefined) {
      pen = 'M';
      continue;
    }
    // A stroke of no length with round ends is a dot: a reading that stands alone is seen.
    parts.push(`${pen}${tenths(x(timeS))},${tenths(y(value))}${pen === 'M' ? 'h0' : ''}`);
    pen = 'L';
  }
  return parts.join('');
}
