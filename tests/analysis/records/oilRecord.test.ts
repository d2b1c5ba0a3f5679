import { describe, expect, it } from 'vitest';
import { describeIssues } from '../../../analysis/records/fields.ts';
import { oilRecord } from '../../../analysis/records/oilRecord.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';

function complaint(change: Readonly<Record<string, unknown>>): string {
  const parsed = oilRecord.safeParse({ ...INVENTED_VG46, ...change });
  return parsed.success ? '' : describeIssues(parsed.error);
}

describe('an oil record', () => {
  it('is taken when its oil thins with heat', () => {
    expect(complaint({})).toBe('');
  });

  it('refuses two temperatures that are swapped or alike', () => {
    expect(complaint({ upper: { temperatureK: 313.15, kinematicViscosityM2PerS: 6.8e-6 } })).toContain(
      'upper.temperatureK',
    );
    expect(complaint({ lower: INVENTED_VG46.upper, upper: INVENTED_VG46.lower })).toContain('upper.temperatureK');
  });

  it('refuses an oil that does not thin with heat', () => {
    expect(complaint({ upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 46e-6 } })).toContain(
      'upper.kinematicViscosityM2PerS',
    );
  });

  it('refuses a viscosity below those of ASTM D341, as mm²/s written for m²/s divided once too often would give', () => {
    // ASTM D341 holds from 0.21 mm²/s up.
    expect(complaint({ upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 6.8e-12 } })).toContain(
      'upper.kinematicViscosityM2PerS',
    );
    expect(complaint({ upper: { temperatureK: 373.15, kinematicViscosityM2PerS: 0.21e-6 } })).toBe('');
  });

  it('refuses a density that no oil has, such as one in g/cm³', () => {
    expect(complaint({ densityAt15CKgPerM3: 0.88 })).toContain('densityAt15CKgPerM3');
    expect(complaint({ densityAt15CKgPerM3: Number.NaN })).toContain('densityAt15CKgPerM3');
  });
});
