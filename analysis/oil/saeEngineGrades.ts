import type { Outcome } from '../outcome.ts';
import type { GradeLimits } from './gradeLimits.ts';
import type { OilRefusal } from './oilRefusal.ts';
import { type SaeTable, saeGrade } from './saeGrade.ts';

/** Grades 8 to 20 overlap by design; in editions before 2013 SAE 20 began at 5.6. */
const ENGINE_GRADES: SaeTable = {
  edition: 'SAE J300:2015-01',
  bands: {
    '8': [4.0, 6.1],
    '12': [5.0, 7.1],
    '16': [6.1, 8.2],
    '20': [6.9, 9.3],
    '30': [9.3, 12.5],
    '40': [12.5, 16.3],
    '50': [16.3, 21.9],
    '60': [21.9, 26.1],
  },
  winterLeast: { '0W': 3.8, '5W': 3.8, '10W': 4.1, '15W': 5.6, '20W': 5.6, '25W': 9.3 },
  examplePair: '15W-40',
};

/**
 * Limits of an SAE engine-oil grade at 100 °C (the cranking and pumping limits of winter grades play no part here).
 *
 * @param grade - as printed on the can, without 'SAE': '30', '10W', '15W-40' [-]
 * @returns limits at 100 °C with the edition [m²/s], or that there is no such grade [-]
 *
 * Source: SAE J300, January 2015 (read in a reprint).
 */
export function saeEngineGrade(grade: string): Outcome<GradeLimits, OilRefusal> {
  return saeGrade(ENGINE_GRADES, grade);
}
