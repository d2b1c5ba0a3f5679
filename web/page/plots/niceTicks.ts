/** 1, 2 or 5 times a power of ten; a span that is so many of them but for the last digit has so many. */
function niceStep(span: number, count: number): number {
  const rough = (span / count) * (1 - 1e-9);
  const power = 10 ** Math.floor(Math.log10(rough));
  return power * ([1, 2, 5, 10].find((factor) => factor * power >= rough) ?? 10);
}

/**
 * Round numbers that divide a scale: steps of 1, 2 or 5 times a power of ten, about `count` of them within.
 *
 * @param min - lower end of the scale [any unit]
 * @param max - upper end, above min [the same]
 * @param count - about how many steps [-]
 * @returns the ticks within [min, max], ascending, and the decimals they need [the same; -]
 */
export function niceTicks(
  min: number,
  max: number,
  count: number,
): { readonly ticks: readonly number[]; readonly decimals: number } {
  if (!(max > min)) return { ticks: [min], decimals: 0 };
  const step = niceStep(max - min, count);
  const decimals = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(min / step - 1e-9);
  const last = Math.floor(max / step + 1e-9);
  return { ticks: Array.from({ length: last - first + 1 }, (_, index) => (first + index) * step), decimals };
}

/** The scale widened to whole ticks, so that no point lies on its edge. */
export function niceRange(min: number, max: number, count: number): readonly [number, number] {
  const span = max > min ? max - min : Math.max(Math.abs(max), 1) * 0.1;
  const low = min - 0.04 * span;
  const high = max + 0.04 * span;
  const step = niceStep(high - low, count);
  return [Math.floor(low / step) * step, Math.ceil(high / step) * step];
}
