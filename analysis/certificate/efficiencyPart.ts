import type { Fitted } from '../result.ts';
import type { EfficiencyTable } from './deliverySchema.ts';

/** Printed at most so many speeds and pressures: what a page holds [-]. */
const MOST_SPEEDS = 6;
const MOST_PRESSURES = 5;

/** So many places of a list, evenly, its last among them; its first is where a pump hardly turns and is left out. */
function evenly(count: number, most: number): readonly number[] {
  const step = Math.max(1, Math.floor((count - 1) / most));
  return Array.from({ length: Math.min(most, count) }, (_, index) => count - 1 - index * step)
    .filter((place) => place >= 0)
    .reverse();
}

/**
 * The efficiency map of a run, thinned out to be printed as a table.
 *
 * @param map - of the result [SI]
 * @returns speeds along the rows, pressures along the columns; null where there is no map [rev/s, Pa, 1]
 */
export function efficiencyTable(map: Fitted['map']): EfficiencyTable | null {
  if (!map.ok) return null;
  const { speedsRevPerS, differentialPressuresPa, derivedEfficiency, isExtrapolated, clearances } = map.value;
  const columns = evenly(differentialPressuresPa.length, MOST_PRESSURES);
  const rows = evenly(speedsRevPerS.length, MOST_SPEEDS);
  return {
    oilName: map.value.oilName,
    oilTemperatureK: map.value.oilTemperatureK,
    dynamicViscosityPaS: map.value.dynamicViscosityPaS,
    densityKgPerM3: map.value.densityKgPerM3,
    clearances,
    isAllExtrapolated: map.value.beyondEverywhere.length > 0,
    differentialPressuresPa: columns.map((column) => differentialPressuresPa[column] ?? Number.NaN),
    rows: rows.map((row) => ({
      speedRevPerS: speedsRevPerS[row] ?? Number.NaN,
      // Sheets run speed by speed within each pressure.
      cells: columns.map((column) => {
        const place = column * speedsRevPerS.length + row;
        return {
          derivedEfficiency: derivedEfficiency.values[place] ?? Number.NaN,
          expandedUncertainty: derivedEfficiency.expandedUncertainties[place] ?? Number.NaN,
          isExtrapolated: isExtrapolated[place] ?? true,
        };
      }),
    })),
  };
}
