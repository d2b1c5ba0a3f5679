import { no, type Outcome, yes } from '../outcome.ts';
import { ICE_POINT_K, siDifferenceFrom, unitOf } from '../units.ts';
import type { GradeLimits } from './gradeLimits.ts';
import type { OilRefusal } from './oilRefusal.ts';

const GRADE_TEMPERATURE_K = ICE_POINT_K + 100;

/** A table of SAE grades at 100 °C, in mm²/s: summer grades are bands [least, below), winter grades have a least only. */
export type SaeTable = {
  readonly edition: string;
  readonly bands: Readonly<Record<string, readonly [least: number, below: number | null]>>;
  readonly winterLeast: Readonly<Record<string, number>>;
  readonly examplePair: string;
};

/** A key of the table itself, not of its prototype. */
function own<Value>(record: Readonly<Record<string, Value>>, key: string): Value | undefined {
  return Object.hasOwn(record, key) ? record[key] : undefined;
}

/** Band of a summer, winter or paired grade; a pair that no oil can meet is no grade. */
function bandOf(table: SaeTable, grade: string): readonly [least: number, below: number | null] | undefined {
  const summerBand = own(table.bands, grade);
  if (summerBand !== undefined) return summerBand;
  const [winter = '', ...others] = grade.split('-');
  const winterLeast = own(table.winterLeast, winter);
  if (winterLeast === undefined) return undefined;
  if (others.length === 0) return [winterLeast, null];
  const band = own(table.bands, others.join('-'));
  if (band === undefined || (band[1] !== null && winterLeast >= band[1])) return undefined;
  return [Math.max(winterLeast, band[0]), band[1]];
}

/**
 * Limits at 100 °C of a single ('90', '75W') or paired ('80W-90') SAE grade; a paired oil meets both: the band of its
 * summer grade, and not below the least of its winter grade.
 *
 * @param table - an edition's limits [mm²/s]
 * @param grade - as printed on the can, without 'SAE' [-]
 * @returns limits at 100 °C [m²/s], or that the edition has no such grade [-]
 */
export function saeGrade(table: SaeTable, grade: string): Outcome<GradeLimits, OilRefusal> {
  const { edition } = table;
  const band = bandOf(table, grade);
  if (band === undefined) {
    const known = [...Object.keys(table.winterLeast), ...Object.keys(table.bands)];
    const text = `${edition} has no grade ${JSON.stringify(grade)}; it has ${known.join(', ')} and pairs such as ${table.examplePair}`;
    return no({ code: 'UNKNOWN_GRADE', grade, known, text });
  }
  const [least, below] = band;
  const si = (mm2PerS: number): number => siDifferenceFrom(mm2PerS, unitOf('mm2/s'));
  return yes({
    grade: `SAE ${grade}`,
    edition,
    temperatureK: GRADE_TEMPERATURE_K,
    leastM2PerS: si(least),
    mostM2PerS: below === null ? null : si(below),
    isMostIncluded: false,
  });
}
