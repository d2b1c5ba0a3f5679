import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../analysis/analyseRun.ts';
import type { RunRecord, SetUp } from '../../../analysis/records/runRecord.ts';
import type { RunResult } from '../../../analysis/result.ts';
import { PRACTICE_RUN_SET_UP } from '../../../rig/session/practiceConditions.ts';
import { dryStartScript, type PracticeRun, recordPractice } from '../../support/practiceRun.ts';

function resultOf({ run, decoded }: PracticeRun, change: Partial<RunRecord> = {}): RunResult {
  return analyseRun({ run: { ...run, ...change }, ...decoded, isPractice: true, exclusions: [] });
}

const severityOf = ({ findings }: RunResult, code: string): string | undefined =>
  findings.find((finding) => finding.code === code)?.severity;

const primingVerdictOf = ({ verdicts }: RunResult) =>
  verdicts.find(({ demand }) => demand.quantity === 'primingTime')?.verdict;

const lift = recordPractice('dryLift', 'healthy', 41, { script: dryStartScript(600, 8) });
/** Without a dead volume no leak-back is fitted, which is all that takes time here. */
const withoutFit = (change: Partial<SetUp> = {}): Partial<RunRecord> => ({
  setUp: { ...PRACTICE_RUN_SET_UP, deadVolumeM3: 0, ...change },
});

describe('a start that was not dry', () => {
  it('with its pipe full before the motor started is refused by name, and proves no lift (seed 42)', () => {
    const wet = recordPractice('dryLift', 'healthy', 42, {
      script: [
        ...['speed 0', 'flood', 'valve 1'].map((command) => ({ atS: 0, command })),
        { atS: 2, command: 'speed 600' },
        { atS: 10, command: 'speed 0' },
      ],
    });
    const result = resultOf(wet);
    expect(severityOf(result, 'ALREADY_WET')).toBe('unfit');
    expect(severityOf(result, 'BAROMETER_CONTRADICTS_SUCTION')).toBeUndefined();
    const { dryLift } = result;
    expect(dryLift?.priming).toMatchObject({ ok: false, reason: { code: 'ALREADY_WET' } });
    expect(dryLift?.estimate.ok).toBe(false);
    expect(dryLift?.events?.sustainedDelivery.seen).toBe(true);
    expect(primingVerdictOf(result)).toBe('not proven');
  });

  it('with oil that came before the pump could have swept the pipe is refused by name', () => {
    // 0.8 m of pipe stood there. Of 3 m a pump that swept 0.8 m and its dead volume, 26 % and 4 %, cannot have brought oil.
    const result = resultOf(lift, withoutFit({ suctionPipeLengthM: 3 }));
    expect(severityOf(result, 'OIL_TOO_EARLY')).toBe('unfit');
    expect(result.dryLift?.priming).toMatchObject({ ok: false, reason: { code: 'OIL_TOO_EARLY' } });
    expect(primingVerdictOf(result)).toBe('not proven');
  });

  it('is not suspected where the pipe is a tenth longer than it was', () => {
    const result = resultOf(lift, withoutFit({ suctionPipeLengthM: 0.88 }));
    expect(result.dryLift?.priming.ok).toBe(true);
    expect(result.findings.some(({ severity }) => severity === 'unfit')).toBe(false);
  });
});

describe('a set-up that contradicts itself or the readings', () => {
  it('with a lift of zero keeps what came, warns, and estimates nothing', () => {
    const result = resultOf(lift, {
      setUp: { ...PRACTICE_RUN_SET_UP, staticLiftM: { value: 0, standardUncertainty: 0.005 } },
    });
    expect(severityOf(result, 'LIFT_ZERO')).toBe('warning');
    expect(result.dryLift?.estimate).toMatchObject({ ok: false, reason: { code: 'LIFT_ZERO' } });
    expect(result.dryLift?.priming.ok).toBe(true);
  });

  it('with a barometer two kilopascals off warns, though no leak-back be fitted', () => {
    const barometerPa = { value: PRACTICE_RUN_SET_UP.barometerPa.value + 2000, standardUncertainty: 50 };
    const result = resultOf(lift, withoutFit({ barometerPa }));
    expect(severityOf(result, 'DEAD_VOLUME_ZERO')).toBe('warning');
    expect(severityOf(result, 'BAROMETER_CONTRADICTS_SUCTION')).toBe('warning');
    expect(severityOf(resultOf(lift, withoutFit()), 'BAROMETER_CONTRADICTS_SUCTION')).toBeUndefined();
  });

  it('with pieces of pipe that do not reach the lift, or reach past it, warns', () => {
    const piece = (riseM: number) => ({
      boreM: { value: 0.025, standardUncertainty: 1e-4 },
      lengthM: { value: 0.8, standardUncertainty: 0.005 },
      riseM,
      fittingLossCoefficient: 0,
    });
    const codesWith = (riseM: number): string | undefined => {
      const suctionPipe = {
        submergedLengthM: 0.15,
        pieces: [piece(riseM)],
        strainerLossCoefficient: 0,
        hasFootValve: false,
      };
      const result = resultOf(lift, withoutFit({ suctionPipe }));
      return result.findings.find(({ code }) => code === 'PIPE_CONTRADICTS_LIFT')?.text;
    };
    expect(codesWith(0.3)).toContain('such a pipe cannot hold the column');
    expect(codesWith(0.6)).toContain('reach 0.600 m, and the set-up states a lift of 0.450 m: one of the two is wrong');
    expect(codesWith(0.46)).toBeUndefined();
  });

  it('without a motor start, or with a motor that ran before the record began, is unfit', () => {
    const still = recordPractice('dryLift', 'healthy', 43, { script: [{ atS: 0, command: 'speed 0' }], endS: 3 });
    expect(severityOf(resultOf(still), 'NO_MOTOR_START')).toBe('unfit');
    const readings = {
      ...lift.decoded.readings,
      channels: Object.fromEntries(
        Object.entries(lift.decoded.readings.channels).map(([name, column]) => [
          name,
          { values: column.values.subarray(200), quality: column.quality.subarray(200) },
        ]),
      ),
      elapsedS: lift.decoded.readings.elapsedS.subarray(200),
    };
    const late = { ...lift, decoded: { ...lift.decoded, readings } };
    expect(severityOf(resultOf(late), 'ALREADY_RUNNING')).toBe('unfit');
  });
});
