import { expect, it } from 'vitest';
import { workedLine } from '../../../analysis/certificate/workedLine.ts';
import { builtCertificate, deliveryRun, dryLiftRun } from '../../support/certificateRuns.ts';

function delivered() {
  const [delivery] = builtCertificate([deliveryRun(), dryLiftRun()]).delivery;
  if (delivery === undefined) throw new Error('no delivery');
  return delivery;
}

it('is arithmetic that a pocket calculator repeats', () => {
  const { law } = delivered();
  // Worked by hand from the fixture's law at its fastest hold of 5.03 bar, hold 5 of 8.33 rev/s coming first among equals:
  // 1.3794e-5 × 8.33 = 1.149040e-4; 8.31e-13 × 503000 / 0.0301 = 1.388681e-5;
  // 4.9e-8 × (2 × 503000 / 861.2)^½ = 4.9e-8 × 34.17792 = 1.674718e-6; together 9.93425e-5 m³/s, 5.961 l/min.
  expect(law.workedLine).toContain('1.3794·10^−5 × 8.33 − 8.3100·10^−13 × 503000 / 0.0301');
  expect(law.workedLine).toContain('− 4.9000·10^−8 × (2 × 503000 / 861.2)^½');
  expect(law.workedLine).toContain('= 9.9342·10^−5 m³/s');
  expect(law.workedLine).toContain('5.961 l/min');
  // A coefficient of zero has no term: nothing to type.
  expect(law.workedLine.match(/ − /g)).toHaveLength(2);
});

it('is empty where no hold with a pressure rise is in the fit', () => {
  const { holds } = delivered();
  const out = holds.map((hold) => ({ ...hold, leftOut: { cause: 'person', reason: 'air' } as const }));
  const coefficients = {
    derivedCapacityM3PerRev: 1e-5,
    laminarSlipM3: 0,
    orificeSlipM2: 0,
    speedPressureSlipM3PerPa: 0,
  };
  expect(workedLine({ coefficients }, out)).toBe('');
  expect(workedLine({ coefficients }, [])).toBe('');
});
