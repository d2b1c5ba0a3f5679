import { describe, expect, it } from 'vitest';
import {
  BAROMETER_SOURCE_ID,
  type CalibrationCircumstances,
  channelSources,
  channelValue,
} from '../../../analysis/calibration/channelSources.ts';
import type { BenchChannel } from '../../../analysis/records/benchRecord.ts';
import type { ZeroCheck } from '../../../analysis/records/runRecord.ts';
import { combine, type Source, sourceTable } from '../../../analysis/uncertainty/source.ts';
import type { Stated } from '../../../analysis/uncertainty/stated.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { gumH3 } from '../../reference/gum-h3.ts';
import { channelWith, inventedCalibration } from '../../support/benchChannel.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const BAROMETER_PA = 101_325;
const ON_DAY: CalibrationCircumstances = { onDate: '2026-03-01', zeroCheck: null };

const barometer: Source = {
  id: BAROMETER_SOURCE_ID,
  label: 'barometer',
  kind: 'calibration',
  standardUncertainty: 50,
  degreesOfFreedom: null,
  shape: 'normal',
  pooledAs: null,
};

function zeroCheck(channel: string, standardUncertainty: number, isApplied = true): ZeroCheck {
  return { takenAtUtc: '2026-03-01T08:00:00Z', channels: [{ channel, offset: 0.01, standardUncertainty, isApplied }] };
}

function statedAt(channel: BenchChannel, si: number, circumstances: CalibrationCircumstances = ON_DAY): Stated {
  const sources = sourceTable([...channelSources(channel, circumstances), barometer]);
  return stateUncertainty(channelValue(channel, si, BAROMETER_PA, circumstances.zeroCheck), sources);
}

describe('the errors of a channel', () => {
  it('puts a gain error on the gauge reading, not on the absolute pressure', () => {
    // By hand: 3 bar(g) read, gain u = 0.15 %, offset u = 0.003 bar → u = √(450² + 300² + 50²) Pa with the barometer's 50 Pa.
    const channel = channelWith('deliveryPressure');
    expectRelative(statedAt(channel, BAROMETER_PA + 3e5).standardUncertainty, Math.hypot(450, 300, 50), 1e-12);
    expect(channelValue(channel, 4e5, BAROMETER_PA).sensitivities[BAROMETER_SOURCE_ID]).toBe(1);
  });

  it('takes the error off an indication that reads high', () => {
    // By hand: 10.03 l/min indicated by a meter that reads 0.3 % high is 10.00 l/min: −0.03 l/min.
    const flow = channelValue(channelWith('flow'), 10.03e-3 / 60, BAROMETER_PA);
    expectRelative((flow.sensitivities['flow.gain'] ?? 0) * 0.003, -0.03009e-3 / 60, 1e-6);
    expect(flow.sensitivities[BAROMETER_SOURCE_ID]).toBeUndefined();
  });

  it('gives an absolute pressure no share in the barometer and a temperature none in its gain at 0 °C', () => {
    const suction = channelValue(channelWith('suctionPressure'), 97_000, BAROMETER_PA);
    expect(suction.sensitivities[BAROMETER_SOURCE_ID]).toBeUndefined();
    const temperature = channelValue(channelWith('oilTemperature'), 273.15, BAROMETER_PA);
    expect(temperature.sensitivities['oilTemperature.gain']).toBeCloseTo(0, 12);
  });

  it('has no sources for a channel that nobody calibrated', () => {
    const channel = channelWith('flow', { calibration: null });
    expect(channelSources(channel, ON_DAY)).toEqual([]);
    expect(channelValue(channel, 1e-4, BAROMETER_PA).sensitivities).toEqual({});
  });

  it('lets a departure from the line vanish at the ends of the range and be largest in its middle', () => {
    const linearity = { standardUncertainty: 0.01, shape: 'rectangular' };
    const channel = channelWith('suctionPressure', {
      range: { min: 0, max: 2 },
      calibration: inventedCalibration({ linearity }),
    });
    // By hand, 4 x (2 − x)/4 of 0.01 bar: nothing at 0 and 2 bar, all at 1 bar, three quarters at 0.5 bar.
    expect(statedAt(channel, 0).standardUncertainty).toBe(0);
    expect(statedAt(channel, 2e5).standardUncertainty).toBeCloseTo(0, 9);
    expectRelative(statedAt(channel, 1e5).standardUncertainty, 1000, 1e-12);
    expectRelative(statedAt(channel, 0.5e5).standardUncertainty, 750, 1e-12);
    expect(channelSources(channel, ON_DAY).find(({ id }) => id === 'suctionPressure.linearity')?.shape).toBe(
      'rectangular',
    );
  });

  it('lets gain and offset drift by the years since calibration, as well for a run before it', () => {
    const channel = channelWith('flow', {
      calibration: inventedCalibration({ driftPerYear: { gain: 0.002, offset: 0.03, shape: 'rectangular' } }),
    });
    // By hand: 1461 days are four years of 365.25 days; 12 l/min × 0.8 % = 0.096 l/min and 0.12 l/min together.
    const expected = (Math.hypot(0.096, 0.12) * 1e-3) / 60;
    for (const onDate of ['2030-03-01', '2022-03-01']) {
      const after = statedAt(channel, 12e-3 / 60, { onDate, zeroCheck: null });
      expectRelative(after.standardUncertainty, expected, 1e-12);
    }
    expect(statedAt(channel, 12e-3 / 60).standardUncertainty).toBe(0);
    expect(() => channelSources(channel, { onDate: 'yesterday', zeroCheck: null })).toThrow(RangeError);
  });

  it('reads an accuracy class as limits of a rectangular error, all over the range', () => {
    const channel = channelWith('deliveryPressure', {
      range: { min: 0, max: 10 },
      calibration: { ...inventedCalibration(), accuracyClass: { percentOfSpan: 0.5 } },
    });
    // By hand: 0.5 % of 10 bar is ±5000 Pa, u = 5000/√3 at both ends and in the middle; √0.90625 of it at the quarter.
    const uAt = (bar: number): number => {
      const { sensitivities, value } = channelValue(channel, BAROMETER_PA + bar * 1e5, BAROMETER_PA);
      const { [BAROMETER_SOURCE_ID]: _, ...own } = sensitivities;
      return stateUncertainty({ value, sensitivities: own }, sourceTable(channelSources(channel, ON_DAY)))
        .standardUncertainty;
    };
    for (const bar of [0, 5, 10]) expectRelative(uAt(bar), 5000 / Math.sqrt(3), 1e-9);
    expectRelative(uAt(2.5), (5000 / Math.sqrt(3)) * Math.sqrt(0.0625 + 0.5625 + 0.5 * 0.5625), 1e-9);
  });

  it('adds a class of the reading to one of the span', () => {
    const channel = channelWith('flow', {
      range: { min: 0, max: 40 },
      calibration: { ...inventedCalibration(), accuracyClass: { percentOfSpan: 0, percentOfReading: 0.6 } },
    });
    // By hand: ±0.6 % of 20 l/min, rectangular.
    expectRelative(statedAt(channel, 20e-3 / 60).standardUncertainty, 0.12e-3 / 60 / Math.sqrt(3), 1e-12);
  });

  it('states a calibration curve’s scatter with its degrees of freedom, one component in the budget', () => {
    // JCGM 100:2008, H.3: thermometer readings with their corrections; the line of reading + correction has the same residuals.
    // u² at 25 °C by hand from the published errors: u²(y1) + 25 u²(y2) + 10 r u(y1) u(y2).
    const channel = channelWith('oilTemperature', {
      calibration: inventedCalibration({
        curve: {
          degree: 1,
          points: gumH3.points.map(({ reading, correction }) => ({ raw: reading, reference: reading + correction })),
          referenceStandardUncertainty: 0.004,
        },
      }),
    });
    const { y1, y2, correlation, at30C } = gumH3;
    const variance =
      y1.standardUncertainty ** 2 +
      25 * y2.standardUncertainty ** 2 +
      10 * correlation * y1.standardUncertainty * y2.standardUncertainty;
    expect(at30C.standardUncertainty ** 2).toBeGreaterThan(variance);
    const stated = statedAt(channel, 273.15 + 25 + y1.value + 5 * y2.value);
    expectRelative(stated.standardUncertainty, Math.hypot(Math.sqrt(variance), 0.004), 1e-5);
    expect(stated.budget.map(({ sourceId }) => sourceId).sort()).toEqual([
      'oilTemperature.curve',
      'oilTemperature.curveReference',
    ]);
    // Welch and Satterthwaite: ν = 9 (u²/u_curve²)².
    expectRelative(stated.degreesOfFreedom ?? Number.NaN, 9 * ((variance + 0.004 ** 2) / variance) ** 2, 1e-4);
  });

  it('names the height of a transmitter and the table of a meter, calibrated or not', () => {
    const tapping = { heightOverInletM: { value: 0.3, standardUncertainty: 0.01 }, tubeFilledWith: 'oil' };
    const pressure = channelWith('suctionPressure', { tapping, calibration: null });
    expect(channelSources(pressure, ON_DAY)).toMatchObject([
      { id: 'suctionPressure.tappingHeight', standardUncertainty: 0.01 },
    ]);
    const table = [1e-5, 1e-4].map((kinematicViscosityM2PerS) => ({ kinematicViscosityM2PerS, ratio: 1 }));
    const meter = channelWith('flow', { kFactor: { table, relativeStandardUncertainty: 0.002 }, calibration: null });
    expect(channelSources(meter, ON_DAY)).toMatchObject([{ id: 'flow.kFactor', standardUncertainty: 0.002 }]);
  });
});

describe('a zero check that is applied', () => {
  it('replaces the uncertainty of the offset and of its drift by its own', () => {
    const channel = channelWith('flow', {
      calibration: inventedCalibration({
        offset: { standardUncertainty: 0.05, shape: 'rectangular' },
        driftPerYear: { gain: 0, offset: 1 },
      }),
    });
    const circumstances = { onDate: '2027-03-01', zeroCheck: zeroCheck('flow', 0.002) };
    expectRelative(statedAt(channel, 1e-4, circumstances).standardUncertainty, 0.002e-3 / 60, 1e-12);
    const onlyRecorded = { onDate: '2026-03-01', zeroCheck: zeroCheck('flow', 0.002, false) };
    expectRelative(statedAt(channel, 1e-4, onlyRecorded).standardUncertainty, 0.05e-3 / 60, 1e-12);
  });

  it('leaves of every error what it adds between the zero and the reading, as a made-up transmitter shows', () => {
    // Law: indicated = true + g true + o + l bow(true) in bar; zeroed at the barometer, which is itself known with an error b. To
    // first order the corrected value errs by what the sensitivities say of g, l and b, and o is gone.
    const channel = channelWith('suctionPressure', {
      range: { min: 0, max: 2 },
      calibration: inventedCalibration({
        gain: { standardUncertainty: 1e-3, shape: 'normal' },
        offset: { standardUncertainty: 1e-3, shape: 'normal' },
        linearity: { standardUncertainty: 1e-3, shape: 'normal' },
      }),
    });
    const [g, o, l, barometerErrorPa] = [2e-5, 3e-5, -4e-5, 7];
    const bow = (bar: number): number => bar * (2 - bar);
    const indicatedBar = (trueBar: number): number => trueBar + g * trueBar + o + l * bow(trueBar);
    const trueBarometerBar = (BAROMETER_PA - barometerErrorPa) / 1e5;
    const offsetBar = indicatedBar(trueBarometerBar) - BAROMETER_PA / 1e5;
    const trueBar = 0.4;
    const correctedPa = (indicatedBar(trueBar) - offsetBar) * 1e5;
    const { sensitivities } = channelValue(channel, correctedPa, BAROMETER_PA, zeroCheck('suctionPressure', 0));
    // Sensitivities are those of the true value at a given indication: true − corrected = Σ (∂true/∂e) e. The barometer's
    // is that of a value taken from it, as everywhere: it errs by +b with it.
    const explainedPa =
      (sensitivities['suctionPressure.gain'] ?? 0) * g +
      (sensitivities['suctionPressure.linearity'] ?? 0) * l * 1e5 -
      (sensitivities[BAROMETER_SOURCE_ID] ?? 0) * barometerErrorPa;
    expectRelative(trueBar * 1e5 - correctedPa, explainedPa, 1e-3);
  });

  it('lets the barometer cancel between a gauge pressure and an absolute one that was zeroed against it', () => {
    const circumstances = { onDate: '2026-03-01', zeroCheck: zeroCheck('suctionPressure', 0.0001) };
    const suction = channelValue(channelWith('suctionPressure'), 90_000, BAROMETER_PA, circumstances.zeroCheck);
    const delivery = channelValue(channelWith('deliveryPressure'), 4e5, BAROMETER_PA, circumstances.zeroCheck);
    const difference = combine(310_000, [
      { input: delivery, derivative: 1 },
      { input: suction, derivative: -1 },
    ]);
    expect(difference.sensitivities[BAROMETER_SOURCE_ID]).toBe(0);
  });

  it('gives a channel that nobody calibrated the error of its zero', () => {
    const channel = channelWith('flow', { calibration: null });
    const circumstances = { onDate: '2026-03-01', zeroCheck: zeroCheck('flow', 0.003) };
    expectRelative(statedAt(channel, 1e-4, circumstances).standardUncertainty, 0.003e-3 / 60, 1e-12);
  });
});
