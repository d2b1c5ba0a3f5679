import type { Outline } from '../../analysis/outline/polygon.ts';

/** Where a level line enters and leaves an outline, in pairs. */
function crossings(outline: Outline, yM: number): number[] {
  const found: number[] = [];
  for (const [index, to] of outline.entries()) {
    const from = outline.at(index - 1);
    if (from === undefined || from.yM > yM === to.yM > yM) continue;
    found.push(from.xM + ((to.xM - from.xM) * (yM - from.yM)) / (to.yM - from.yM));
  }
  return found.sort((a, b) => a - b);
}

/** Area common to two outlines between two heights, line by line (midpoint rule) [m²]. */
export function overlapArea(one: Outline, other: Outline, fromYM: number, toYM: number, lines: number): number {
  const stepM = (toYM - fromYM) / lines;
  let area = 0;
  for (let line = 0; line < lines; line += 1) {
    const yM = fromYM + (line + 0.5) * stepM;
    const [ones, others] = [crossings(one, yM), crossings(other, yM)];
    for (let a = 0; a + 1 < ones.length; a += 2) {
      for (let b = 0; b + 1 < others.length; b += 2) {
        const left = Math.max(ones[a] ?? Number.NaN, others[b] ?? Number.NaN);
        const right = Math.min(ones[a + 1] ?? Number.NaN, others[b + 1] ?? Number.NaN);
        if (right > left) area += (right - left) * stepM;
      }
    }
  }
  return area;
}
