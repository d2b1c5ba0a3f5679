import { describe, expect, it } from 'vitest';
import { proposeTestOil, type TestOilQuestion } from '../../../analysis/efficiency/proposeTestOil.ts';
import { testOilGrade } from '../../../analysis/efficiency/testOilGrade.ts';
import type { OilRecord } from '../../../analysis/records/oilRecord.ts';
import { exactly, type Source } from '../../../analysis/uncertainty/source.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { INVENTED_VG46 } from '../../support/inventedOil.ts';
import { inventedLawRun } from './inventedLawRun.ts';

/** An oil of 46 mm²/s at 40 °C and of just 15 mm²/s at 70 °C. */
const MACHINE_OIL: OilRecord = {
  ...INVENTED_VG46,
  name: 'of the machine (invented)',
  upper: { temperatureK: 343.15, kinematicViscosityM2PerS: 15e-6 },
};

const GRADE_K = 313.15;

describe('the grade of a test oil', () => {
  it('is the one whose middle at the bench is what the machine’s oil has hot', () => {
    // ISO 3448: VG 15 has its middle of 15 mm²/s at 40 °C.
    const found = accepted(testOilGrade(MACHINE_OIL, 343.15, GRADE_K, 95));
    expect(found.grade).toBe('ISO VG 15');
    expectRelative(found.wantedM2PerS, 15e-6, 1e-9);
    expectRelative(found.viscosityAtBenchM2PerS, 15e-6, 1e-9);
    expectRelative(found.matchingTemperatureK, GRADE_K, 1e-9);
  });

  it('names the temperature of an exact match where the grade lies a little off', () => {
    // Wanted 15 mm²/s of VG 15 on a bench of 42 °C: the same oil, which matches at 40 °C.
    const found = accepted(testOilGrade(MACHINE_OIL, 343.15, GRADE_K + 2, 95));
    expect(found.grade).toBe('ISO VG 15');
    expect(found.viscosityAtBenchM2PerS).toBeLessThan(15e-6);
    expectRelative(found.matchingTemperatureK, GRADE_K, 1e-9);
  });

  it('is none where the machine’s oil is thinner hot than any grade on the bench', () => {
    const none = testOilGrade(INVENTED_VG46, 413.15, 283.15, 95);
    expect(none).toMatchObject({ ok: false, reason: { code: 'NO_GRADE_FITS' } });
    expect(none.ok === false && none.reason.text).toMatch(/ mm²\/s at 10 °C/);
  });
});

type Worth = {
  readonly calibrations: number;
  readonly testOilStandardUncertainty: number;
  readonly machineOil?: OilRecord;
};

/** The invented run asked for its duty in the hot machine, its calibration errors as much smaller as told. */
function questionOf({ calibrations, testOilStandardUncertainty, machineOil = INVENTED_VG46 }: Worth): TestOilQuestion {
  const run = inventedLawRun(81);
  const scaled = (source: Source): Source =>
    source.kind === 'calibration'
      ? { ...source, standardUncertainty: calibrations * source.standardUncertainty }
      : source;
  return {
    holds: run.holds,
    fit: run.fit,
    machineOil,
    benchTemperatureK: 318.15,
    duty: { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 343.15 },
    change: { factor: exactly(1), sources: [] },
    testOilStandardUncertainty,
    viscosityIndex: 95,
    sources: run.calibrations.map(scaled),
  };
}

const CERTAIN_OIL: OilRecord = { ...INVENTED_VG46, viscosityRelativeStandardUncertainty: 0 };

describe('what a test oil would do', () => {
  it('helps where scatter is all there is: slip measured thin is not multiplied by the ratio of viscosities', () => {
    const question = questionOf({ calibrations: 0, testOilStandardUncertainty: 0, machineOil: CERTAIN_OIL });
    const proposal = accepted(proposeTestOil(question));
    expect(proposal.uncertaintyRatio).toBeLessThan(1);
    expectRelative(
      proposal.uncertaintyRatio,
      proposal.after.flowM3PerS.standardUncertainty / proposal.before.flowM3PerS.standardUncertainty,
      1e-12,
    );
  });

  it('does not change what is spoken of: flow and efficiency stay where the law has them', () => {
    const { before, after } = accepted(
      proposeTestOil(questionOf({ calibrations: 1, testOilStandardUncertainty: 0.01 })),
    );
    // Both fits are fed the law's own flows; nothing but rounding, and a term at zero, can move them.
    expectRelative(after.flowM3PerS.value, before.flowM3PerS.value, 1e-6);
    expectRelative(after.derivedEfficiency.value, before.derivedEfficiency.value, 1e-6);
  });

  it('hurts where viscosity is hardly known: one oil’s error cancels, that of two does not', () => {
    const rough: OilRecord = { ...INVENTED_VG46, viscosityRelativeStandardUncertainty: 0.1 };
    const proposal = accepted(
      proposeTestOil(questionOf({ calibrations: 0, testOilStandardUncertainty: 0.1, machineOil: rough })),
    );
    expect(proposal.uncertaintyRatio).toBeGreaterThan(1);
  });

  it('is not known where no grade fits, nor from holds without a law', () => {
    const question = questionOf({ calibrations: 1, testOilStandardUncertainty: 0.01 });
    const hot = { ...question.duty, oilTemperatureK: 413.15 };
    expect(proposeTestOil({ ...question, duty: hot, benchTemperatureK: 283.15 })).toMatchObject({
      ok: false,
      reason: { code: 'NO_GRADE_FITS' },
    });
    expect(proposeTestOil({ ...question, holds: question.holds.slice(0, 2) })).toMatchObject({
      ok: false,
      reason: { code: 'TOO_FEW_HOLDS' },
    });
  });
});
