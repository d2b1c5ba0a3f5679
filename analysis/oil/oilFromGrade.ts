import { no, type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { ICE_POINT_K } from '../units.ts';
import type { GradeLimits } from './gradeLimits.ts';
import type { OilRefusal } from './oilRefusal.ts';
import { viscosityAt40CFromIndex, viscosityAt100CFromIndex } from './viscosityIndex.ts';

const LOWER_K = ICE_POINT_K + 40;
const UPPER_K = ICE_POINT_K + 100;

/** The viscosities of an oil record, estimated from what stands on the can. */
export type EstimatedOil = Pick<OilRecord, 'lower' | 'upper' | 'viscosityRelativeStandardUncertainty'> & {
  readonly viscosityBasis: 'grade';
  /** In words, with the edition: it is printed wherever the estimate is used. */
  readonly basis: string;
};

/**
 * An oil's two viscosities from its grade and viscosity index: the middle of the grade's band, carried to the other
 * temperature by the index. An estimate: the oil may lie anywhere in the band, so the half-width a of the band relative
 * to its middle is a rectangular error, u = a/√3 (ISO VG: 10 %/√3 = 5.8 %). The error of the index itself is not in it.
 *
 * @param limits - of the grade, at 40 °C or 100 °C [m²/s]
 * @param viscosityIndex - from the maker's sheet; about 95 for a plain mineral oil, common practice, no source [1]
 * @returns viscosities at 40 and 100 °C with their relative standard uncertainty [m²/s, 1], or why there are none [-]
 * @throws RangeError if the grade's limits are at neither 40 °C nor 100 °C
 *
 * Source: ISO 3448, SAE J300, SAE J306 (limits); ASTM D2270 (index); JCGM 100:2008, 4.3.7 (rectangular).
 */
export function oilFromGrade(limits: GradeLimits, viscosityIndex: number): Outcome<EstimatedOil, OilRefusal> {
  const { grade, edition, temperatureK, leastM2PerS, mostM2PerS } = limits;
  if (temperatureK !== LOWER_K && temperatureK !== UPPER_K) {
    throw new RangeError(`limits.temperatureK: ${temperatureK}, expected ${LOWER_K} or ${UPPER_K}`);
  }
  if (mostM2PerS === null) {
    return no({
      code: 'GRADE_WITHOUT_UPPER_LIMIT',
      quantity: 'kinematic viscosity at 100 °C [m²/s]',
      value: leastM2PerS,
      limit: leastM2PerS,
      text: `${edition} sets no upper limit for ${grade}: it has no middle to estimate from; measure the viscosity or take it from the maker's sheet`,
    });
  }
  const middleM2PerS = (leastM2PerS + mostM2PerS) / 2;
  const isAt40C = temperatureK === LOWER_K;
  const other = isAt40C
    ? viscosityAt100CFromIndex(middleM2PerS, viscosityIndex)
    : viscosityAt40CFromIndex(middleM2PerS, viscosityIndex);
  if (!other.ok) return other;
  return yes({
    viscosityBasis: 'grade',
    lower: { temperatureK: LOWER_K, kinematicViscosityM2PerS: isAt40C ? middleM2PerS : other.value },
    upper: { temperatureK: UPPER_K, kinematicViscosityM2PerS: isAt40C ? other.value : middleM2PerS },
    viscosityRelativeStandardUncertainty: (mostM2PerS - leastM2PerS) / (2 * middleM2PerS * Math.sqrt(3)),
    basis: `estimated: middle of ${grade} by ${edition}, viscosity index ${viscosityIndex}`,
  });
}
