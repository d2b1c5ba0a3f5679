import { efficiencyContours } from '../../../../analysis/efficiency/efficiencyContours.ts';
import { printFixed } from '../../../../analysis/formatStated.ts';
import { differenceFrom, unitOf } from '../../../../analysis/units.ts';
import type { PlotTable } from '../../plots/plotTable.ts';
import type { Contour, Point, Stretch } from '../../plots/shapes.ts';
import type { AnyMap } from './mapForWish.ts';

/** Lines worth drawing, in per cent; those of a pump lie close together near the top. */
const LEVELS_PERCENT: readonly number[] = [85, 90, 92.5, 95, 96, 97, 98, 99];

/** Fewer, far apart, for where the pump is not used, or was not measured. */
const COARSE_PERCENT: readonly number[] = [30, 50, 70, 80, 90, 95, 98];
const MAIN_LEVELS: readonly number[] = [50, 90];

export type MapSheetName = 'derivedEfficiency' | 'geometricEfficiency';

export function rpm(speedRevPerS: number): number {
  return differenceFrom(speedRevPerS, unitOf('r/min'));
}

export function bar(differencePa: number): number {
  return differenceFrom(differencePa, unitOf('bar(a)'));
}

/** Lines close together where holds were taken, far apart elsewhere. */
function levelsOf(map: AnyMap, sheet: MapSheetName): readonly number[] {
  const percent = map[sheet].values.map((value) => differenceFrom(value, unitOf('%')));
  const measured = percent.filter((_, index) => map.isExtrapolated[index] === false);
  const [lowest, highest] = [Math.min(...percent), Math.max(...percent)];
  const lowestMeasured = measured.length === 0 ? Number.POSITIVE_INFINITY : Math.min(...measured);
  const fine = LEVELS_PERCENT.filter((level) => level > lowestMeasured);
  const coarse = COARSE_PERCENT.filter((level) => level <= lowestMeasured);
  return [...coarse, ...fine].filter((level) => level > lowest && level < highest);
}

export function contoursOf(map: AnyMap, sheet: MapSheetName): readonly Contour[] {
  const levels = levelsOf(map, sheet);
  const found = efficiencyContours(
    map,
    map[sheet],
    levels.map((level) => level / 100),
  );
  return found.flatMap(({ lines }, index): Contour[] => {
    const level = levels[index];
    if (level === undefined || lines.length === 0) return [];
    return [
      {
        label: `${printFixed(level, Number.isInteger(level) ? 0 : 1)} %`,
        isMain: MAIN_LEVELS.includes(level),
        lines: lines.map((line) =>
          line.map(
            ({ speedRevPerS, differentialPressurePa }): Point => [rpm(speedRevPerS), bar(differentialPressurePa)],
          ),
        ),
      },
    ];
  });
}

/** Edges of the cells about evenly spaced steps, cut at the first and the last step. */
function edges(steps: readonly number[]): readonly number[] {
  const inner = steps.slice(1).map((step, index) => (step + (steps[index] ?? step)) / 2);
  return [steps[0] ?? 0, ...inner, steps.at(-1) ?? 0];
}

/** Stretches of neighbouring cells that lie outside the measured, row by row. */
export function hatchedOf(map: AnyMap): readonly Stretch[] {
  const xs = edges(map.speedsRevPerS.map(rpm));
  const ys = edges(map.differentialPressuresPa.map(bar));
  const columns = map.speedsRevPerS.length;
  return map.differentialPressuresPa.flatMap((_, row) => {
    const stretches: Stretch[] = [];
    let from: number | null = null;
    for (let column = 0; column <= columns; column += 1) {
      const isOutside = column < columns && map.isExtrapolated[row * columns + column] === true;
      if (isOutside && from === null) from = column;
      if (isOutside || from === null) continue;
      stretches.push({ fromX: xs[from] ?? 0, toX: xs[column] ?? 0, fromY: ys[row] ?? 0, toY: ys[row + 1] ?? 0 });
      from = null;
    }
    return stretches;
  });
}

/** The step nearest to a value. */
export function nearestStep(steps: readonly number[], value: number): number {
  return steps.reduce(
    (best, step, index) => (Math.abs(step - value) < Math.abs((steps[best] ?? step) - value) ? index : best),
    0,
  );
}

/** The map cell by cell. */
export function mapTable(map: AnyMap, sheet: MapSheetName): PlotTable {
  const columns = map.speedsRevPerS.length;
  const percent = (share: number | undefined): number => differenceFrom(share ?? 0, unitOf('%'));
  return {
    columns: ['speed [r/min]', 'pressure difference [bar]', 'efficiency [%]', '± for 95 %', 'where'],
    rows: map[sheet].values.map((value, index) => [
      rpm(map.speedsRevPerS[index % columns] ?? 0),
      bar(map.differentialPressuresPa[Math.floor(index / columns)] ?? 0),
      percent(value),
      percent(map[sheet].expandedUncertainties[index]),
      map.isExtrapolated[index] === true ? 'outside what was measured' : 'measured',
    ]),
  };
}
