import { describe, expect, it } from 'vitest';
import {
  intervalWords,
  limitWords,
  machineWords,
  provenWords,
  untoldWords,
} from '../../../analysis/dryLift/dryLiftWords.ts';
import { isLimitInSight } from '../../../analysis/dryLift/limitInSight.ts';
import type { DryLiftResult } from '../../../analysis/result.ts';
import { dryLiftRun } from '../../support/certificateRuns.ts';
import { INVENTED_ESTIMATE } from '../../support/inventedEstimate.ts';

const interval = (value: number, lower: number, upper: number) => ({ value, lower, upper });

function dryLift(change: Partial<DryLiftResult> = {}): DryLiftResult {
  const { dryLift: found } = dryLiftRun().result;
  if (found === null) throw new Error('fixture');
  return { ...found, ...change };
}

describe('words of a dry start', () => {
  it('give a lopsided interval as many digits as its width carries', () => {
    // Half the width is 2.0 m, 0.0010 m, 0.058: two digits of it are kept.
    expect(intervalWords(interval(5.949, 4.161, 8.164), 'm')).toBe('5.9 m (95 %: 4.2 to 8.2 m)');
    expect(intervalWords(interval(0.10693, 0.10592, 0.10796), 'm')).toBe('0.1069 m (95 %: 0.1059 to 0.1080 m)');
    expect(intervalWords(interval(0.01, 0.0014, 0.073), '%')).toBe('1.0 % (95 %: 0.1 to 7.3 %)');
    expect(intervalWords(interval(2, 2, 2), 'm')).toBe('2.00 m (95 %: 2.00 to 2.00 m)');
  });

  it('keep what is proven and what is estimated apart', () => {
    expect(provenWords(dryLift())).toBe(
      'Proven: oil came from 0.450 m at 599 r/min, in class W1, in 5.31 ± 0.12 s. One start of one.',
    );
    const dry = { ok: true, value: { primed: false, motorStartS: 2, watchedForS: 12 } } as const;
    expect(provenWords(dryLift({ priming: dry }))).toBe(
      'Not proven: no oil had come from 0.450 m at 599 r/min, in class W1, 12.0 s after motor start.',
    );
    expect(limitWords(INVENTED_ESTIMATE, 'W1')).toEqual([
      'Estimated: dry lift limit 5.9 m (95 %: 4.2 to 8.2 m) at 599 r/min, in class W1.',
    ]);
  });

  it('name what the readings did not tell, and nothing where they told all', () => {
    expect(untoldWords(INVENTED_ESTIMATE)).toContain('carry-over, whether leak-back changed during the start');
    const told = {
      ...INVENTED_ESTIMATE,
      identified: { leakBack: 'told', deadVolume: 'told', carryOver: 'told' },
      gapChange: { verdict: 'constant', startRatio: null },
    } as const;
    expect(untoldWords(told)).toBeNull();
  });

  it('mark a prediction for the machine as one, with never where no oil would come', () => {
    const prediction = {
      isPrediction: true,
      speedRevPerS: 3,
      staticLiftM: 0.5,
      oilTemperatureK: 283.15,
      barometerPa: 95_000,
      limitM: interval(0.6, 0.4, 0.9),
      marginM: interval(0.1, -0.1, 0.4),
      primingTimeS: { value: 20, lower: 15, upper: null },
      lowestInletPressurePa: interval(9e4, 8.9e4, 9.1e4),
      leastInletPressurePa: 3e4,
      isAboveLeastPressure: 'yes',
      isOilExtrapolated: false,
    } as const;
    const wordsOf = (value: typeof prediction | Record<string, unknown>) =>
      machineWords({ machine: { ok: true, value: { ...prediction, ...value } } });
    const words = wordsOf(prediction);
    expect(words).toContain('proven by nobody: from 0.50 m at 180 r/min, oil at 10 °C, air at 950 mbar');
    expect(words).toContain('0.900 bar(a) (95 %: 0.890 to 0.910 bar(a)): it stays above the 0.30 bar(a) that was set.');
    expect(words).not.toContain('viscosity');
    expect(wordsOf({ isAboveLeastPressure: 'no' })).toContain('falls below the 0.30 bar(a) that was set');
    expect(wordsOf({ isAboveLeastPressure: 'not proven' })).toContain('is not proven');
    expect(wordsOf({ isAboveLeastPressure: null, leastInletPressurePa: null })).toContain('nobody set a limit to it');
    expect(wordsOf({ isOilExtrapolated: true })).toContain('was not measured as cold as that');
    expect(words).toContain('20.0 s (95 %: 15.0 s to never)');
    expect(words).toContain('0.10 m (95 %: −0.10 to 0.40 m)');
    expect(wordsOf({ primingTimeS: { value: null, lower: null, upper: null } })).toContain('no oil would come');
    expect(machineWords(INVENTED_ESTIMATE)).toBeNull();
  });

  it('draw a limit no further down than twice what is drawn', () => {
    // 101.325 kPa less twice 3.825 kPa is 93.675 kPa.
    expect(isLimitInSight(93_700, 101_325, 97_500)).toBe(true);
    expect(isLimitInSight(93_600, 101_325, 97_500)).toBe(false);
  });
});
