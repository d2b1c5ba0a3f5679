import { checkedOilState } from '../../../../analysis/oil/checkedOilState.ts';
import { oilFromGrade } from '../../../../analysis/oil/oilFromGrade.ts';
import { isoViscosityGrade } from '../../../../analysis/oil/viscosityGrades.ts';
import type { OilRecord } from '../../../../analysis/records/oilRecord.ts';

/** ISO grades that pumps are asked to carry. */
export const MAP_GRADES: readonly number[] = [10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460];

/** A grade says nothing of density: the run's own, give or take so much; common practice, no source [1]. */
const DENSITY_STANDARD_UNCERTAINTY = 0.01;

/** What a person asks the map for. */
export type MapWish = {
  /** Null: the run's own oil. */
  readonly grade: number | null;
  readonly viscosityIndex: number;
  readonly oilTemperatureK: number;
};

/** The oil of a wish, or why there is none at that temperature. */
export type WishedOil =
  | { readonly ok: true; readonly value: OilRecord }
  | { readonly ok: false; readonly reason: { readonly text: string } };

function oilOfGrade(grade: number, viscosityIndex: number, runOil: OilRecord): WishedOil {
  const limits = isoViscosityGrade(grade);
  if (!limits.ok) return limits;
  const estimated = oilFromGrade(limits.value, viscosityIndex);
  if (!estimated.ok) return estimated;
  const { lower, upper, viscosityBasis, viscosityRelativeStandardUncertainty } = estimated.value;
  return {
    ok: true,
    value: {
      name: `${limits.value.grade}, viscosity index ${viscosityIndex}`,
      viscosityBasis,
      lower,
      upper,
      viscosityRelativeStandardUncertainty,
      densityAt15CKgPerM3: runOil.densityAt15CKgPerM3,
      densityRelativeStandardUncertainty: DENSITY_STANDARD_UNCERTAINTY,
    },
  };
}

/**
 * The oil that a map is asked for, once it is known that it has a viscosity at that temperature.
 *
 * @param wish - grade and temperature [-, K]
 * @param runOil - oil of the run [-]
 */
export function wishedOil({ grade, viscosityIndex, oilTemperatureK }: MapWish, runOil: OilRecord): WishedOil {
  const oil: WishedOil = grade === null ? { ok: true, value: runOil } : oilOfGrade(grade, viscosityIndex, runOil);
  if (!oil.ok) return oil;
  const state = checkedOilState(oil.value, oilTemperatureK);
  return state.ok ? oil : state;
}
