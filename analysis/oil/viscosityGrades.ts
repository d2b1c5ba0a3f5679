import { no, type Outcome, yes } from '../outcome.ts';
import { differenceFrom, ICE_POINT_K, siDifferenceFrom, unitOf } from '../units.ts';
import { type GradeLimits, isWithinGrade } from './gradeLimits.ts';
import type { OilRefusal } from './oilRefusal.ts';

const EDITION = 'ISO 3448:1992';
const GRADE_TEMPERATURE_K = ICE_POINT_K + 40;
const HALF_WIDTH = 0.1;

/** Grade number and mid-point at 40 °C [1, mm²/s]; the small grades are named by their rounded mid-points. */
const MID_POINTS: readonly (readonly [grade: number, midMm2PerS: number])[] = [
  [2, 2.2],
  [3, 3.2],
  [5, 4.6],
  [7, 6.8],
  [10, 10],
  [15, 15],
  [22, 22],
  [32, 32],
  [46, 46],
  [68, 68],
  [100, 100],
  [150, 150],
  [220, 220],
  [320, 320],
  [460, 460],
  [680, 680],
  [1000, 1000],
  [1500, 1500],
  [2200, 2200],
  [3200, 3200],
];

const ALL_LIMITS: readonly GradeLimits[] = MID_POINTS.map(([grade, midMm2PerS]) => {
  const midM2PerS = siDifferenceFrom(midMm2PerS, unitOf('mm2/s'));
  return {
    grade: `ISO VG ${grade}`,
    edition: EDITION,
    temperatureK: GRADE_TEMPERATURE_K,
    leastM2PerS: (1 - HALF_WIDTH) * midM2PerS,
    mostM2PerS: (1 + HALF_WIDTH) * midM2PerS,
    isMostIncluded: true,
  };
});

/**
 * Limits of an ISO viscosity grade: mid-point at 40 °C ±10 %.
 *
 * @param grade - number of the grade: 46 for ISO VG 46 [1]
 * @returns limits at 40 °C [m²/s], or that there is no such grade [-]
 *
 * Source: ISO 3448 (grades 2 to 1000 read in reprints, above from memory of the standard).
 */
export function isoViscosityGrade(grade: number): Outcome<GradeLimits, OilRefusal> {
  const found = ALL_LIMITS.find((limits) => limits.grade === `ISO VG ${grade}`);
  if (found !== undefined) return yes(found);
  const known = ALL_LIMITS.map((limits) => limits.grade);
  return no({
    code: 'UNKNOWN_GRADE',
    grade: `ISO VG ${grade}`,
    known,
    text: `${EDITION} has no grade VG ${grade}; it has ${known.join(', ')}`,
  });
}

/**
 * ISO viscosity grade that a viscosity at 40 °C belongs to. The bands leave gaps: 38 mm²/s belongs to no grade.
 *
 * @param viscosityAt40CM2PerS - kinematic viscosity at 40 °C, > 0 [m²/s]
 * @returns the grade with its limits [m²/s], or that it lies between or outside all grades [-]
 * @throws RangeError if the viscosity is not a finite number above zero
 *
 * Source: ISO 3448.
 */
export function isoViscosityGradeOf(viscosityAt40CM2PerS: number): Outcome<GradeLimits, OilRefusal> {
  if (!(Number.isFinite(viscosityAt40CM2PerS) && viscosityAt40CM2PerS > 0)) {
    throw new RangeError(`viscosityAt40CM2PerS: ${viscosityAt40CM2PerS} is not a number above zero`);
  }
  const found = ALL_LIMITS.find((limits) => isWithinGrade(viscosityAt40CM2PerS, limits));
  if (found !== undefined) return yes(found);
  const edges = ALL_LIMITS.flatMap(({ leastM2PerS, mostM2PerS }) => [leastM2PerS, mostM2PerS ?? leastM2PerS]);
  const distance = (edge: number): number => Math.abs(edge - viscosityAt40CM2PerS);
  const limit = edges.reduce((nearest, edge) => (distance(edge) < distance(nearest) ? edge : nearest));
  const inMm2PerS = (si: number): string => `${differenceFrom(si, unitOf('mm2/s')).toPrecision(3)} mm²/s`;
  return no({
    code: 'BETWEEN_GRADES',
    quantity: 'kinematic viscosity at 40 °C [m²/s]',
    value: viscosityAt40CM2PerS,
    limit,
    text: `${inMm2PerS(viscosityAt40CM2PerS)} at 40 °C belongs to no grade of ${EDITION}: the nearest limit is ${inMm2PerS(limit)}`,
  });
}
