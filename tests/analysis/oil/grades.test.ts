import { describe, expect, it } from 'vitest';
import { isWithinGrade } from '../../../analysis/oil/gradeLimits.ts';
import { oilFromGrade } from '../../../analysis/oil/oilFromGrade.ts';
import { saeEngineGrade } from '../../../analysis/oil/saeEngineGrades.ts';
import { saeGearGrade } from '../../../analysis/oil/saeGearGrades.ts';
import { isoViscosityGrade, isoViscosityGradeOf } from '../../../analysis/oil/viscosityGrades.ts';
import { viscosityIndex } from '../../../analysis/oil/viscosityIndex.ts';
import { oilRecord } from '../../../analysis/records/oilRecord.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('ISO viscosity grades', () => {
  it('are mid-points at 40 °C, ten per cent either way', () => {
    // ISO 3448, limits as printed in reprints: VG 32: 28.8 to 35.2; 46: 41.4 to 50.6; 68: 61.2 to 74.8; 100: 90.0 to 110;
    // 150: 135 to 165; 220: 198 to 242. VG 2 has the mid-point 2.2, VG 7 6.8.
    const printed: readonly (readonly [number, number, number])[] = [
      [2, 1.98, 2.42],
      [7, 6.12, 7.48],
      [32, 28.8, 35.2],
      [46, 41.4, 50.6],
      [68, 61.2, 74.8],
      [100, 90, 110],
      [150, 135, 165],
      [220, 198, 242],
    ];
    for (const [grade, least, most] of printed) {
      const limits = accepted(isoViscosityGrade(grade));
      expectRelative(limits.leastM2PerS, least * 1e-6, 1e-12);
      expectRelative(limits.mostM2PerS ?? Number.NaN, most * 1e-6, 1e-12);
      expect(limits).toMatchObject({ grade: `ISO VG ${grade}`, edition: 'ISO 3448:1992', temperatureK: 313.15 });
    }
  });

  it('number twenty, from 2 to 3200', () => {
    // ISO 3448: mid-points; those above 1000 from memory of the standard.
    const midPoints = [
      2.2, 3.2, 4.6, 6.8, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200,
    ];
    const names = [2, 3, 5, 7, 10, 15, 22, 32, 46, 68, 100, 150, 220, 320, 460, 680, 1000, 1500, 2200, 3200];
    expect(midPoints.map((mid) => accepted(isoViscosityGradeOf(mid * 1e-6)).grade)).toEqual(
      names.map((name) => `ISO VG ${name}`),
    );
  });

  it('leave gaps between them: an oil of 38 mm²/s has no grade', () => {
    // ISO 3448: VG 32 ends at 35.2, VG 46 begins at 41.4; 38 is nearer to the former.
    const between = isoViscosityGradeOf(38e-6);
    expect(between).toMatchObject({ ok: false, reason: { code: 'BETWEEN_GRADES', value: 38e-6 } });
    if (between.ok || between.reason.code === 'UNKNOWN_GRADE') throw new Error('expected a limit');
    expectRelative(between.reason.limit, 35.2e-6, 1e-12);
  });

  it('refuse a number that is none of them, and a viscosity that is none', () => {
    expect(isoViscosityGrade(40)).toMatchObject({ ok: false, reason: { code: 'UNKNOWN_GRADE', grade: 'ISO VG 40' } });
    expect(isoViscosityGrade(Number.NaN)).toMatchObject({ ok: false });
    expect(() => isoViscosityGradeOf(Number.NaN)).toThrow(RangeError);
  });
});

describe('SAE grades', () => {
  it('of gear oils have the limits of the 2019 edition', () => {
    // SAE J306 (February 2019), read in a reprint: [least, below) at 100 °C in mm²/s.
    const published: readonly (readonly [string, number, number | null])[] = [
      ['65', 3.8, 5],
      ['70', 5, 6.5],
      ['75', 6.5, 8.5],
      ['80', 8.5, 11],
      ['85', 11, 13.5],
      ['90', 13.5, 18.5],
      ['110', 18.5, 24],
      ['140', 24, 32.5],
      ['190', 32.5, 41],
      ['250', 41, null],
      ['70W', 3.8, null],
      ['75W', 3.8, null],
      ['80W', 8.5, null],
      ['85W', 11, null],
    ];
    for (const [grade, least, below] of published) {
      const limits = accepted(saeGearGrade(grade));
      expectRelative(limits.leastM2PerS, least * 1e-6, 1e-12);
      if (below === null) expect(limits.mostM2PerS).toBeNull();
      else expectRelative(limits.mostM2PerS ?? Number.NaN, below * 1e-6, 1e-12);
      expect(limits).toMatchObject({ grade: `SAE ${grade}`, edition: 'SAE J306:2019-02', temperatureK: 373.15 });
    }
  });

  it('of engine oils have the limits of the 2015 edition', () => {
    // SAE J300 (January 2015), read in a reprint: [least, below) at 100 °C in mm²/s; 8 to 20 overlap by design.
    const published: readonly (readonly [string, number, number | null])[] = [
      ['8', 4, 6.1],
      ['12', 5, 7.1],
      ['16', 6.1, 8.2],
      ['20', 6.9, 9.3],
      ['30', 9.3, 12.5],
      ['40', 12.5, 16.3],
      ['50', 16.3, 21.9],
      ['60', 21.9, 26.1],
      ['0W', 3.8, null],
      ['5W', 3.8, null],
      ['10W', 4.1, null],
      ['15W', 5.6, null],
      ['20W', 5.6, null],
      ['25W', 9.3, null],
    ];
    for (const [grade, least, below] of published) {
      const limits = accepted(saeEngineGrade(grade));
      expectRelative(limits.leastM2PerS, least * 1e-6, 1e-12);
      if (below === null) expect(limits.mostM2PerS).toBeNull();
      else expectRelative(limits.mostM2PerS ?? Number.NaN, below * 1e-6, 1e-12);
      expect(limits.edition).toBe('SAE J300:2015-01');
    }
  });

  it('in pairs meet both limits', () => {
    // By hand from the tables: 80W-90 has the band of 90; 25W-30 that of 30 (both from 9.3); 15W-12 needs 5.6, above the 5.0
    // of grade 12.
    expect(accepted(saeGearGrade('80W-90'))).toEqual({ ...accepted(saeGearGrade('90')), grade: 'SAE 80W-90' });
    expect(accepted(saeEngineGrade('25W-30'))).toMatchObject({
      ...accepted(saeEngineGrade('30')),
      grade: 'SAE 25W-30',
    });
    expectRelative(accepted(saeEngineGrade('15W-12')).leastM2PerS, 5.6e-6, 1e-12);
  });

  it('take their lower limit in and leave their upper one out', () => {
    // SAE J306: 13.5 mm²/s is SAE 90, and no longer SAE 85. ISO 3448 takes both limits in.
    expect(isWithinGrade(13.5e-6, accepted(saeGearGrade('90')))).toBe(true);
    expect(isWithinGrade(13.5e-6, accepted(saeGearGrade('85')))).toBe(false);
    expect(isWithinGrade(50.6e-6, accepted(isoViscosityGrade(46)))).toBe(true);
    expect(isWithinGrade(99e-6, accepted(saeGearGrade('250')))).toBe(true);
    expect(isWithinGrade(Number.NaN, accepted(saeGearGrade('250')))).toBe(false);
  });

  it('refuse what is no grade, and a pair that no oil can meet', () => {
    // By hand: 25W asks for 9.3 mm²/s, where SAE 20 has ended.
    for (const none of ['', '-', '95', '90-80W', '80W-', '80W90', '-90', '25W-20', 'constructor', '80W-90-140']) {
      expect(saeEngineGrade(none), none).toMatchObject({ ok: false, reason: { code: 'UNKNOWN_GRADE', grade: none } });
    }
    const none = saeGearGrade('60');
    if (none.ok) throw new Error('expected a refusal');
    expect(none.reason.text).toContain('SAE J306:2019-02');
    expect(none.reason.text).toContain('80W-90');
  });
});

describe('oilFromGrade', () => {
  it('estimates an ISO oil from its mid-point and index, and says that it is an estimate', () => {
    // ASTM D2270 worked backwards: 46 mm²/s at 40 °C with VI 101.60848 has 6.8 at 100 °C. ±10 % rectangular: 0.1/√3 = 0.0577350.
    const oil = accepted(oilFromGrade(accepted(isoViscosityGrade(46)), 101.60848));
    expect(oil.viscosityBasis).toBe('grade');
    expectRelative(oil.lower.kinematicViscosityM2PerS, 46e-6, 1e-12);
    expectRelative(oil.upper.kinematicViscosityM2PerS, 6.8e-6, 1e-6);
    expectRelative(oil.viscosityRelativeStandardUncertainty, 0.057735, 1e-6);
    expect(oil.basis).toContain('estimated');
    expect(oil.basis).toContain('ISO 3448:1992');
  });

  it('estimates an SAE gear oil from the middle of its band at 100 °C', () => {
    // By hand: the middle of 13.5 to 18.5 is 16.0 ± 2.5 mm²/s: 15.625 % rectangular, 9.021 %. The index of what comes out is
    // the one that went in.
    const oil = accepted(oilFromGrade(accepted(saeGearGrade('80W-90')), 98));
    expectRelative(oil.upper.kinematicViscosityM2PerS, 16e-6, 1e-12);
    expectRelative(oil.viscosityRelativeStandardUncertainty, 0.15625 / Math.sqrt(3), 1e-12);
    const index = viscosityIndex(oil.lower.kinematicViscosityM2PerS, oil.upper.kinematicViscosityM2PerS);
    expect(Math.abs(accepted(index) - 98)).toBeLessThan(1e-9);
    expect(oil.basis).toContain('SAE J306:2019-02');
  });

  it('makes an oil that the record takes', () => {
    const { basis, ...viscosities } = accepted(oilFromGrade(accepted(isoViscosityGrade(220)), 95));
    const parsed = oilRecord.safeParse({
      name: `invented; ${basis}`,
      ...viscosities,
      densityAt15CKgPerM3: 890,
      densityRelativeStandardUncertainty: 0.01,
    });
    expect(parsed.success).toBe(true);
  });

  it('has nothing to estimate from where a grade has no upper limit, or the index is none', () => {
    expect(oilFromGrade(accepted(saeGearGrade('250')), 95)).toMatchObject({
      ok: false,
      reason: { code: 'GRADE_WITHOUT_UPPER_LIMIT' },
    });
    expect(oilFromGrade(accepted(isoViscosityGrade(46)), 999)).toMatchObject({
      ok: false,
      reason: { code: 'VISCOSITY_INDEX_OUT_OF_RANGE' },
    });
    // VG 3 with an index of 95 would be below 2 mm²/s at 100 °C, where there is no index (ASTM D2270).
    expect(oilFromGrade(accepted(isoViscosityGrade(3)), 95)).toMatchObject({
      ok: false,
      reason: { code: 'VISCOSITY_INDEX_NOT_DEFINED' },
    });
    expect(() => oilFromGrade({ ...accepted(isoViscosityGrade(46)), temperatureK: 300 }, 95)).toThrow(RangeError);
  });
});
