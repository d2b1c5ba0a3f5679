import { expect, it } from 'vitest';
import type { CertifiedRun } from '../../../analysis/certificate/certifiedRun.ts';
import { tagNumbers } from '../../../analysis/certificate/tagNumbers.ts';
import { builtCertificate, deliveryRun, dryLiftRun } from '../../support/certificateRuns.ts';

function numbersOf(runs: readonly CertifiedRun[]) {
  return tagNumbers(builtCertificate(runs)).map(({ name, value }) => `${name}: ${value}`);
}

it('gives six numbers, in the units of the shop', () => {
  // By hand from the fixture: 1.97312e-4 m³/s × 60 000 = 11.8387 l/min, U = 2 × 9.4e-7 × 60 000 = 0.11; 95.361 %, U = 0.48 %.
  expect(numbersOf([deliveryRun(), dryLiftRun()])).toEqual([
    'delivers: 11.84 ± 0.11 l/min',
    'efficiency q/(V_i n): 95.36 ± 0.48 %',
    'a turn moves: 13.79 ± 0.09 cm³',
    'draws dry from: 0.45 m',
    'oil after: 5.3 s',
    'relief valve opens: not stated',
  ]);
});

it('says of what was not tested that it was not', () => {
  expect(numbersOf([dryLiftRun()])).toContain('delivers: not tested');
  expect(numbersOf([deliveryRun()])).toContain('draws dry from: not tested');
});
