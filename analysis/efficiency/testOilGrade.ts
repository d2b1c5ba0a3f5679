import { oilFromGrade } from '../oil/oilFromGrade.ts';
import { kinematicViscosity, type ViscosityPoint } from '../oil/viscosity.ts';
import { isoViscosityGrade } from '../oil/viscosityGrades.ts';
import { no, type Outcome, yes } from '../outcome.ts';
import type { OilRecord } from '../records/oilRecord.ts';
import { differenceFrom, ICE_POINT_K, readingFrom, unitOf } from '../units.ts';

/** Grades that workshops can buy as hydraulic or circulating oil; ISO 3448 has more. */
const GRADES = [5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680] as const;

/** Temperatures at which a bench can be run cool [K]; common practice, no source. */
const COOLEST_BENCH_K = ICE_POINT_K + 10;
const HOTTEST_BENCH_K = ICE_POINT_K + 80;

/** Grades stand a factor of about 1.5 apart: one that is further off than half a step is none that fits [1]. */
const MOST_RATIO = 1.25;

/** A grade that has at the bench about the viscosity that the machine's oil has hot. */
export type TestOilGrade = {
  /** 'ISO VG 15'. */
  readonly grade: string;
  readonly viscosities: Pick<OilRecord, 'lower' | 'upper'>;
  readonly viscosityAtBenchM2PerS: number;
  readonly wantedM2PerS: number;
  /** At which the middle of the grade has just the wanted viscosity [K]. */
  readonly matchingTemperatureK: number;
};

export type TestOilRefusal = { readonly code: 'NO_GRADE_FITS'; readonly text: string };

function temperatureAt(lower: ViscosityPoint, upper: ViscosityPoint, wantedM2PerS: number): number {
  let [cool, hot] = [COOLEST_BENCH_K - 40, HOTTEST_BENCH_K + 100];
  for (let halving = 0; halving < 60; halving += 1) {
    const middle = (cool + hot) / 2;
    if (kinematicViscosity(lower, upper, middle) > wantedM2PerS) cool = middle;
    else hot = middle;
  }
  return cool;
}

/**
 * The ISO grade whose middle has, at the bench's temperature, most nearly the viscosity that the machine's oil has hot.
 *
 * @param machineOil - oil of the machine [-]
 * @param hotTemperatureK - of the oil at the pump inlet in the machine [K]
 * @param benchTemperatureK - of the oil at the pump inlet on the bench [K]
 * @param viscosityIndex - of the test oil; about 95 for a plain mineral oil, common practice, no source [1]
 * @returns the grade, its viscosity there and the temperature of an exact match [m²/s, K]; or that none fits [-]
 * @throws RangeError if a temperature is not one an oil can have
 *
 * Source: ISO 3448 (grades), ASTM D2270 and D341 (from grade and index to the bench's temperature).
 */
export function testOilGrade(
  machineOil: OilRecord,
  hotTemperatureK: number,
  benchTemperatureK: number,
  viscosityIndex: number,
): Outcome<TestOilGrade, TestOilRefusal> {
  const wantedM2PerS = kinematicViscosity(machineOil.lower, machineOil.upper, hotTemperatureK);
  const offOf = (viscosityM2PerS: number): number => Math.abs(Math.log(viscosityM2PerS / wantedM2PerS));
  let best: TestOilGrade | null = null;
  for (const number of GRADES) {
    const limits = isoViscosityGrade(number);
    const oil = limits.ok ? oilFromGrade(limits.value, viscosityIndex) : limits;
    // The thinnest grades have no viscosity index to be computed from.
    if (!limits.ok || !oil.ok) continue;
    const { lower, upper } = oil.value;
    const viscosityAtBenchM2PerS = kinematicViscosity(lower, upper, benchTemperatureK);
    if (best !== null && offOf(viscosityAtBenchM2PerS) >= offOf(best.viscosityAtBenchM2PerS)) continue;
    best = {
      grade: limits.value.grade,
      viscosities: { lower, upper },
      viscosityAtBenchM2PerS,
      wantedM2PerS,
      matchingTemperatureK: temperatureAt(lower, upper, wantedM2PerS),
    };
  }
  if (best !== null && offOf(best.viscosityAtBenchM2PerS) <= Math.log(MOST_RATIO)) return yes(best);
  const wanted = differenceFrom(wantedM2PerS, unitOf('mm2/s')).toPrecision(2);
  const bench = readingFrom(benchTemperatureK, unitOf('degC'), 0).toFixed(0);
  return no({
    code: 'NO_GRADE_FITS',
    text: `No ISO grade has ${wanted} mm²/s at ${bench} °C, which is what the machine's oil has hot. Choose another bench temperature, or test with the machine's own oil as hot as the bench allows.`,
  });
}
