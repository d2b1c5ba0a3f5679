/**
 * Numbers at equal distances.
 *
 * @param from - the first [the caller's unit]
 * @param to - the last [the same]
 * @param count - how many, 2 or more [-]
 * @returns the numbers, ends included [the same]
 */
export function evenly(from: number, to: number, count: number): readonly number[] {
  return Array.from({ length: count }, (_, index) => from + ((to - from) * index) / (count - 1));
}
