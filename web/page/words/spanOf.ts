/** Lowest and highest of the values that are there; null where none is. */
export function spanOf(values: readonly (number | null)[]): readonly [number | null, number | null] {
  return values.reduce<readonly [number | null, number | null]>(
    ([low, high], value) =>
      value === null ? [low, high] : [Math.min(low ?? value, value), Math.max(high ?? value, value)],
    [null, null],
  );
}
