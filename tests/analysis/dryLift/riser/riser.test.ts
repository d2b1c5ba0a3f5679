import { describe, expect, it } from 'vitest';
import { analyseRun } from '../../../../analysis/analyseRun.ts';
import { riserReadings } from '../../../../analysis/dryLift/riser/riserReadings.ts';
import { riserWords } from '../../../../analysis/dryLift/riser/riserWords.ts';
import type { PlacedMark } from '../../../../analysis/placeMarks.ts';
import type { Readings } from '../../../../analysis/readings.ts';
import type { SetUp } from '../../../../analysis/records/runRecord.ts';
import { cutReadings } from '../../../support/cutReadings.ts';
import { dryStartScript, recordPractice } from '../../../support/practiceRun.ts';

const mark = (text: string, elapsedS: number | null = 6): PlacedMark => ({
  atUtc: '2026-06-01T09:00:06Z',
  text,
  elapsedS,
});

describe('a mark of oil in a clear riser', () => {
  const heightOf = (text: string) => riserReadings([mark(text)], { riserHeightM: null })[0]?.heightM;

  it('is a height in metres, centimetres or millimetres, by tape to 3 mm where it states nothing', () => {
    expect(heightOf('riser 0.43 m')).toEqual({ value: 0.43, standardUncertainty: 0.003 });
    expect(heightOf('oil in the riser at 43 cm, still')?.value).toBeCloseTo(0.43, 12);
    // ± is for 95 %: half of 6 mm.
    expect(heightOf('Riser 430 ± 6 mm')).toEqual({ value: 0.43, standardUncertainty: 0.003 });
    expect(heightOf('riser 0,43 m')?.value).toBe(0.43);
  });

  it('is none where it says something else, or stands on no time', () => {
    expect(heightOf('oil seen')).toBeUndefined();
    expect(heightOf('riser cleaned')).toBeUndefined();
    expect(riserReadings([mark('riser 0.43 m', null)], { riserHeightM: null })).toEqual([]);
  });

  it('stands before what the set-up says of the highest', () => {
    const highest = { value: 0.44, standardUncertainty: 0.004 };
    const both = riserReadings([mark('riser 0.43 m')], { riserHeightM: highest });
    expect(both.map(({ atS }) => atS)).toEqual([6, null]);
    expect(both[1]?.heightM).toEqual(highest);
  });
});

/** A pump that stands at its limit below the lift: the column is still, and its height is p_atm − p over ρ g. */
const { run, decoded, bench } = recordPractice('dryLift', 'unprimable', 61, { script: dryStartScript(600, 15) });
const { limitM } = bench.truth().dryLift;
const STILL_S = 14;

/** Readings from shortly before the motor start on, so that the record shows no rest. */
function withoutRest(readings: Readings): Readings {
  const first = readings.elapsedS.findIndex((atS) => atS >= 1.85);
  return cutReadings(readings, first, readings.elapsedS.length);
}

function resultOf(marks: readonly PlacedMark[], readings = decoded.readings, setUp: Partial<SetUp> = {}) {
  const at = { ...run, setUp: { ...run.setUp, ...setUp } };
  return analyseRun({ run: at, ...decoded, readings, isPractice: true, exclusions: [], marks });
}

/** By an altitude alone: the weather moves it by so much. */
const UNMEASURED = { barometerPa: { ...run.setUp.barometerPa, standardUncertainty: 1000 } };

describe('a clear riser held against the suction channel (seed 61)', () => {
  it('agrees where it shows the column that stands in truth, and proves that lift', () => {
    const { dryLift, findings } = resultOf([mark(`riser ${limitM.toFixed(3)} m`, STILL_S)]);
    const [check] = dryLift?.riser ?? [];
    expect(check?.verdict).toBe('agrees');
    const carried = check?.carriedM;
    expect(Math.abs((carried?.value ?? Number.NaN) - limitM)).toBeLessThan(carried?.expandedUncertainty ?? 0);
    expect(findings.map(({ code }) => code)).not.toContain('RISER_CONTRADICTS_SUCTION');
    const [words] = dryLift === null ? [] : riserWords(dryLift);
    expect(words).toContain('and that lift is proven');
    expect(words).toContain('the two agree');
  });

  it('contradicts it 50 mm off, and the warning stays on the result', () => {
    const { dryLift, findings } = resultOf([mark(`riser ${(limitM + 0.05).toFixed(3)} m`, STILL_S)]);
    expect(dryLift?.riser[0]?.verdict).toBe('contradicts');
    expect(findings.find(({ code }) => code === 'RISER_CONTRADICTS_SUCTION')?.severity).toBe('warning');
    expect(dryLift === null ? '' : riserWords(dryLift)[0]).toContain('contradict each other');
  });

  it('compares the highest of the set-up with the lowest suction where no oil came', () => {
    const riserHeightM = { value: limitM, standardUncertainty: 0.003 };
    expect(resultOf([], decoded.readings, { riserHeightM }).dryLift?.riser).toMatchObject([
      { atS: null, verdict: 'agrees' },
    ]);
  });

  it('bears the estimate where the barometer was not measured and nothing was read at rest', () => {
    const bare = withoutRest(decoded.readings);
    const refused = resultOf([], bare, UNMEASURED).dryLift?.estimate;
    expect(refused).toMatchObject({ ok: false, reason: { code: 'SUCTION_NOT_GOOD_ENOUGH' } });
    const borne = resultOf([mark(`riser ${limitM.toFixed(3)} m`, STILL_S)], bare, UNMEASURED).dryLift?.estimate;
    if (borne?.ok !== true) throw new Error(`refused: ${JSON.stringify(borne)}`);
    const [limit] = borne.value.limits;
    expect(limit?.limitM.lower).toBeLessThan(limitM);
    expect(limit?.limitM.upper).toBeGreaterThan(limitM);
    // The tape's 3 mm, standard uncertainty; the barometer's 1 kPa would be 0.12 m of this oil, and half a metre of interval.
    expect((limit?.limitM.upper ?? 9) - (limit?.limitM.lower ?? 0)).toBeLessThan(0.05);
  });

  it('bears none where it contradicts the channel by more than both allow', () => {
    const off = mark('riser 0.900 m', STILL_S);
    const refused = resultOf([off], withoutRest(decoded.readings), UNMEASURED).dryLift?.estimate;
    expect(refused).toMatchObject({ ok: false, reason: { code: 'SUCTION_NOT_GOOD_ENOUGH' } });
  });
});

describe('a start that primed (seed 62)', () => {
  it('has no column to be compared once oil flows into the pump', () => {
    const primed = recordPractice('dryLift', 'healthy', 62, { script: dryStartScript(600, 8) });
    const { dryLift } = analyseRun({
      run: { ...primed.run, setUp: { ...primed.run.setUp, deadVolumeM3: 0 } },
      ...primed.decoded,
      isPractice: true,
      exclusions: [],
      marks: [mark('riser 0.45 m', 8)],
    });
    expect(dryLift?.riser).toMatchObject([{ verdict: 'not compared', carriedM: null }]);
    expect(dryLift === null ? '' : riserWords(dryLift)[0]).toContain('oil was flowing into the pump');
  });
});
