import { describe, expect, it } from 'vitest';
import { channelSources } from '../../../../analysis/calibration/channelSources.ts';
import { measuredStart, SUCTION_GOOD_TO_PA } from '../../../../analysis/dryLift/fit/measuredStart.ts';
import { startMoments } from '../../../../analysis/dryLift/fit/startMoments.ts';
import { oilSources } from '../../../../analysis/oil/oilStateAt.ts';
import type { Readings } from '../../../../analysis/readings.ts';
import type { RunRecord, SetUp } from '../../../../analysis/records/runRecord.ts';
import { exactly, type Source } from '../../../../analysis/uncertainty/source.ts';
import { PRACTICE_RUN_SET_UP } from '../../../../rig/session/practiceConditions.ts';
import { accepted } from '../../../support/accepted.ts';
import { expectRelative } from '../../../support/expectRelative.ts';
import { dryStartScript, recordPractice } from '../../../support/practiceRun.ts';

const { run, decoded } = recordPractice('dryLift', 'healthy', 1, { script: dryStartScript(600, 6) });
// By the script: motor start at 2 s; the first reading is 0.02 s after the start of the bench.
const MOMENTS = { motorStartS: 1.98, runningRevPerS: 10, untilS: 4.5 };

function sourcesOf({ bench, oil, setUp }: RunRecord): readonly Source[] {
  return [
    ...bench.channels.flatMap((channel) => channelSources(channel, { onDate: '2026-06-01', zeroCheck: null })),
    ...oilSources(oil),
    {
      id: 'setUp.barometer',
      label: 'barometer',
      kind: 'calibration',
      standardUncertainty: setUp.barometerPa.standardUncertainty,
      degreesOfFreedom: null,
      shape: 'normal',
      pooledAs: null,
    },
  ];
}

function prepare(changed: Partial<RunRecord> = {}, readings: Readings = decoded.readings, moments = MOMENTS) {
  const of = { ...run, ...changed };
  return measuredStart(of, readings, moments, exactly(318.15), sourcesOf(of));
}

function codeOf(outcome: ReturnType<typeof prepare>): string | null {
  return outcome.ok ? null : outcome.reason.code;
}

function withSetUp(changed: Partial<SetUp>): Partial<RunRecord> {
  return { setUp: { ...PRACTICE_RUN_SET_UP, ...changed } };
}

describe('a recorded start made ready for the fit', () => {
  it('begins at rest, ends before oil, and its noise is that of the readings', () => {
    const { start } = accepted(prepare());
    expect(start.timesS[0]).toBeLessThan(0);
    expect(start.timesS.at(-1)).toBeLessThanOrEqual(MOMENTS.untilS - MOMENTS.motorStartS + start.motorStartS);
    // Bench: 0.3 mbar of white noise, stated with the practice sensors; 100 readings tell it to 7 %.
    expectRelative(start.standardDeviationsPa[10] ?? 0, 30, 0.25);
  });

  it('gives the speed of the shaft and not of the tachometer: a first-order rise of 0.4 s, as the practice motor makes', () => {
    const { start } = accepted(prepare());
    for (const sinceS of [0.1, 0.3, 0.6, 1]) {
      const expected = 10 * (1 - Math.exp(-sinceS / 0.4));
      expectRelative(start.speedRevPerS(start.motorStartS + sinceS), expected, 0.02);
    }
  });

  it('refuses a dead volume of zero', () => {
    expect(codeOf(prepare(withSetUp({ deadVolumeM3: 0 })))).toBe('DEAD_VOLUME_ZERO');
  });

  it('refuses a pipe that is shorter than the lift', () => {
    expect(codeOf(prepare(withSetUp({ suctionPipeLengthM: 0.4 })))).toBe('PIPE_CANNOT_HOLD_COLUMN');
  });

  it('refuses a bench without a suction channel', () => {
    const channels = run.bench.channels.filter(({ channel }) => channel !== 'suctionPressure');
    expect(codeOf(prepare({ bench: { ...run.bench, channels } }))).toBe('CHANNEL_MISSING');
  });

  it('refuses a start with next to no readings', () => {
    expect(codeOf(prepare({}, decoded.readings, { ...MOMENTS, untilS: 2.05 }))).toBe('TOO_FEW_READINGS');
  });

  it('refuses a suction that nobody compared with a barometer to a tenth of a kilopascal', () => {
    expect(SUCTION_GOOD_TO_PA).toBe(100);
    const guessed = withSetUp({ barometerPa: { value: 101_325, standardUncertainty: 800 } });
    const noRest = {
      ...decoded.readings,
      elapsedS: decoded.readings.elapsedS.map((timeS) => timeS - MOMENTS.motorStartS),
    };
    const moments = { ...MOMENTS, motorStartS: 0, untilS: 2.5 };
    expect(codeOf(prepare(guessed))).toBe(null); // the readings at rest tell the difference
    const cut = Math.round(50 * MOMENTS.motorStartS);
    const cutReadings: Readings = {
      ...noRest,
      elapsedS: noRest.elapsedS.slice(cut),
      channels: Object.fromEntries(
        Object.entries(noRest.channels).map(([name, column]) => [
          name,
          { values: column.values.slice(cut), quality: column.quality.slice(cut) },
        ]),
      ),
    };
    expect(codeOf(prepare(guessed, cutReadings, moments))).toBe('SUCTION_NOT_GOOD_ENOUGH');
    expect(codeOf(prepare({}, cutReadings, moments))).toBe(null); // with a barometer good to 50 Pa
  });
});

describe('until when no oil can be in the pump', () => {
  const found = { motorStartS: 2, runningRevPerS: 10, oilAtInletS: null, oilAtOutletS: null };

  it('is a tenth of a second before oil was seen at the inlet', () => {
    expectRelative(startMoments({ ...found, oilAtInletS: 4 }, decoded.readings, 60e-6, 16e-6).untilS, 3.9, 1e-12);
  });

  it('is before oil at the outlet by the time in which the pump sweeps its dead volume', () => {
    // By hand: 60 cm³/(16 cm³ · 10 1/s) = 0.375 s, and 0.1 s.
    expectRelative(startMoments({ ...found, oilAtOutletS: 5 }, decoded.readings, 60e-6, 16e-6).untilS, 4.525, 1e-12);
  });

  it('is when the motor runs down where no oil came', () => {
    // By the script the motor is switched off at 8 s, 7.98 s after the first reading; it falls below 97 % within 0.05 s.
    const { untilS } = startMoments(found, decoded.readings, 60e-6, 16e-6);
    expect(untilS).toBeGreaterThan(7.8);
    expect(untilS).toBeLessThan(8);
  });
});
