/** Set points are met by hand: values within this share of the largest belong to one level [1]. */
const LEVEL_SHARE = 0.05;

/**
 * Groups what was taken at about the same set point: a level reaches from its lowest value up to 5 % of the largest
 * value of all. A slow sweep falls apart into many levels, never into one.
 *
 * @param items - in any order [n items]
 * @param settingOf - what is set, speed or pressure difference [any unit]
 * @returns levels, lowest first; within a level by value [-]
 */
export function levelsOf<Item>(
  items: readonly Item[],
  settingOf: (item: Item) => number,
): readonly (readonly Item[])[] {
  const sorted = [...items].sort((a, b) => settingOf(a) - settingOf(b));
  const width = LEVEL_SHARE * sorted.reduce((widest, item) => Math.max(widest, Math.abs(settingOf(item))), 0);
  const levels: Item[][] = [];
  for (const item of sorted) {
    const open = levels.at(-1);
    const lowest = open?.[0];
    if (open !== undefined && lowest !== undefined && settingOf(item) - settingOf(lowest) <= width) open.push(item);
    else levels.push([item]);
  }
  return levels;
}
