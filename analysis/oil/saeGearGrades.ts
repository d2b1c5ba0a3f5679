import type { Outcome } from '../outcome.ts';
import type { GradeLimits } from './gradeLimits.ts';
import type { OilRefusal } from './oilRefusal.ts';
import { type SaeTable, saeGrade } from './saeGrade.ts';

/** The 2005 edition differs: SAE 80 was [7.0, 11.0), 70W and 75W began at 4.1, 80W at 7.0. */
const GEAR_GRADES: SaeTable = {
  edition: 'SAE J306:2019-02',
  bands: {
    '65': [3.8, 5.0],
    '70': [5.0, 6.5],
    '75': [6.5, 8.5],
    '80': [8.5, 11.0],
    '85': [11.0, 13.5],
    '90': [13.5, 18.5],
    '110': [18.5, 24.0],
    '140': [24.0, 32.5],
    '190': [32.5, 41.0],
    '250': [41.0, null],
  },
  winterLeast: { '70W': 3.8, '75W': 3.8, '80W': 8.5, '85W': 11.0 },
  examplePair: '80W-90',
};

/**
 * Limits of an SAE gear-oil grade at 100 °C (the Brookfield limits of winter grades play no part here).
 *
 * @param grade - as printed on the can, without 'SAE': '90', '75W', '80W-90' [-]
 * @returns limits at 100 °C with the edition [m²/s], or that there is no such grade [-]
 *
 * Source: SAE J306, February 2019 (read in a reprint).
 */
export function saeGearGrade(grade: string): Outcome<GradeLimits, OilRefusal> {
  return saeGrade(GEAR_GRADES, grade);
}
