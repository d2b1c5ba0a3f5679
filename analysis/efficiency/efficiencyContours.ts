import { contours } from 'd3-contour';
import type { EfficiencyMap, MapSheet } from './efficiencyMap.ts';

/** Where an efficiency has one value: lines of speed and pressure. */
export type EfficiencyContour = {
  readonly efficiency: number;
  readonly lines: readonly (readonly ContourPoint[])[];
};

type ContourPoint = { readonly speedRevPerS: number; readonly differentialPressurePa: number };

/** Position among evenly spaced steps to the value there. */
function valueAt(steps: readonly number[], position: number): number {
  const [first = Number.NaN, last = Number.NaN] = [steps[0], steps.at(-1)];
  return first + ((last - first) * position) / (steps.length - 1);
}

/**
 * Lines of equal efficiency in a map, linear between its cells, open where they leave it.
 *
 * @param map - axes of the grid, evenly spaced [rev/s, Pa]
 * @param sheet - one efficiency over the grid [1]
 * @param efficiencies - values to draw [1]
 * @returns a contour for each value, with no line where the map does not reach it [rev/s, Pa]
 *
 * Source: marching squares, as d3-contour has them; its cells have their middles at half numbers.
 */
export function efficiencyContours(
  map: Pick<EfficiencyMap, 'speedsRevPerS' | 'differentialPressuresPa'>,
  sheet: Pick<MapSheet, 'values'>,
  efficiencies: readonly number[],
): readonly EfficiencyContour[] {
  const [columns, rows] = [map.speedsRevPerS.length, map.differentialPressuresPa.length];
  const generator = contours().size([columns, rows]);
  const values = [...sheet.values];
  return efficiencies.map((efficiency) => {
    const lines: ContourPoint[][] = [];
    for (const ring of generator.contour(values, efficiency).coordinates.flat()) {
      // The ring runs round the area above the value; where it follows the edge of the grid there is no contour.
      let open: ContourPoint[] | null = null;
      const pieces: ContourPoint[][] = [];
      for (const [x = 0, y = 0] of ring) {
        if (x <= 0 || y <= 0 || x >= columns || y >= rows) {
          open = null;
          continue;
        }
        if (open === null) {
          open = [];
          pieces.push(open);
        }
        open.push({
          speedRevPerS: valueAt(map.speedsRevPerS, x - 0.5),
          differentialPressurePa: valueAt(map.differentialPressuresPa, y - 0.5),
        });
      }
      lines.push(...joinedAcrossStart(pieces));
    }
    return { efficiency, lines: lines.filter((line) => line.length > 1) };
  });
}

/** A ring may begin in the middle of a line: its last piece then goes on in its first. */
function joinedAcrossStart(pieces: readonly ContourPoint[][]): readonly ContourPoint[][] {
  const [first, last] = [pieces[0], pieces.at(-1)];
  if (first === undefined || last === undefined || first === last) return pieces;
  const [start, end] = [first[0], last.at(-1)];
  const isOneLine =
    start?.speedRevPerS === end?.speedRevPerS && start?.differentialPressurePa === end?.differentialPressurePa;
  if (!isOneLine) return pieces;
  return [[...last, ...first.slice(1)], ...pieces.slice(1, -1)];
}
