import { oilSources, oilStateAt } from '../oil/oilStateAt.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { exactly, type Source, type Uncertain } from '../uncertainty/source.ts';

/** The oil at which a law is spoken, with the errors of its viscosity and density. */
export type SpokenOil = {
  readonly record: OilRecord;
  /** False: the run was made with another oil, whose errors have nothing to do with this one's. */
  readonly isOfTheRun: boolean;
  readonly sources: readonly Source[];
};

/** The ids of an oil that is not the run's begin with this. */
export const OTHER_OIL = 'other.';

function isSameOil(a: OilRecord, b: OilRecord): boolean {
  const numbersOf = ({ lower, upper, densityAt15CKgPerM3 }: OilRecord): readonly number[] => [
    lower.temperatureK,
    lower.kinematicViscosityM2PerS,
    upper.temperatureK,
    upper.kinematicViscosityM2PerS,
    densityAt15CKgPerM3,
  ];
  return a.name === b.name && numbersOf(a).every((number, index) => number === numbersOf(b)[index]);
}

/**
 * The oil at which a law is spoken. The run's own oil shares its errors with the law, so that a viscosity that is wrong by
 * a per cent at all temperatures cancels in C_l/µ; another oil brings errors of its own, and they do not cancel.
 *
 * @param record - of the oil [-]
 * @param runOil - of the run that the law was fitted to [-]
 * @returns the oil with its sources, to be merged with those of the run [-]
 */
export function spokenOil(record: OilRecord, runOil: OilRecord): SpokenOil {
  const isOfTheRun = isSameOil(record, runOil);
  const sources = oilSources(record);
  if (isOfTheRun) return { record, isOfTheRun, sources };
  return {
    record,
    isOfTheRun,
    sources: sources.map((source) => ({
      ...source,
      id: OTHER_OIL + source.id,
      label: `${source.label} (${record.name})`,
    })),
  };
}

/**
 * Viscosity and density of the spoken oil at an exactly known temperature.
 *
 * @param oil - with its sources [-]
 * @param temperatureK - of the oil at the pump inlet [K]
 * @returns dynamic viscosity and density [Pa s, kg/m³]
 * @throws RangeError if the temperature is not one an oil can have
 */
export function spokenOilState(
  oil: SpokenOil,
  temperatureK: number,
): { readonly dynamicViscosityPaS: Uncertain; readonly densityKgPerM3: Uncertain } {
  const state = oilStateAt(oil.record, exactly(temperatureK));
  if (oil.isOfTheRun) return state;
  const renamed = ({ value, sensitivities }: Uncertain): Uncertain => ({
    value,
    sensitivities: Object.fromEntries(Object.entries(sensitivities).map(([id, by]) => [OTHER_OIL + id, by])),
  });
  return {
    dynamicViscosityPaS: renamed(state.dynamicViscosityPaS),
    densityKgPerM3: renamed(state.densityKgPerM3),
  };
}
