import { describe, expect, it } from 'vitest';
import { againstPrediction, predictedCurve } from '../../../analysis/guide/predictedCurve.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { slipOil } from '../../support/gapSheets.ts';
import { sampleBench, samplePump, sampleStrip } from '../../support/samples.ts';

const RUN = {
  pump: samplePump('dredger-feed-pump'),
  oil: slipOil(),
  stripSheet: sampleStrip('dredger-feed-pump'),
  bench: sampleBench(),
};
const AT = { speedRevPerS: 15, differentialPressurePa: 3e5, oilTemperatureK: 318.15 };

describe('the curve that a strip sheet predicts', () => {
  const curve = accepted(predictedCurve(RUN));

  it('falls with the pressure, and slips twice as much at twice the pressure', () => {
    const at = (pa: number): number => accepted(curve.expectedAt({ ...AT, differentialPressurePa: pa })).flowM3PerS;
    expect(at(1e5)).toBeLessThan(at(0));
    // laminar gaps: slip is proportional to the pressure difference
    expect((at(0) - at(2e5)) / (at(0) - at(1e5))).toBeCloseTo(2, 9);
  });

  it('covers the speeds of the plan, each once', () => {
    // duty 900 r/min; shares 0.6, 1 and 1.25 of it, within 1200 r/min
    expect(curve.speedsRevPerS).toEqual([9, 15, 18.75]);
    expect(curve.highestPa).toBeGreaterThan(1.3 * 3e5);
  });

  it('says of a point whether it lies on it', () => {
    const { flowM3PerS, expandedUncertaintyM3PerS } = accepted(curve.expectedAt(AT));
    // The sample bench: flow meter and speed pick-up by gain and offset of their calibrations, two standard uncertainties.
    const [flow, speed] = ['flow', 'speed'].map((name) =>
      sampleBench().channels.find(({ channel }) => channel === name),
    );
    if (!flow?.calibration || !speed?.calibration) throw new Error('the sample bench is calibrated');
    const meter = Math.hypot(
      flow.calibration.gain.standardUncertainty * flowM3PerS,
      flow.calibration.offset.standardUncertainty / 60_000, // l/min
    );
    const pickUp = Math.hypot(
      speed.calibration.gain.standardUncertainty * AT.speedRevPerS,
      speed.calibration.offset.standardUncertainty / 60, // r/min
    );
    const instruments = 2 * Math.hypot(meter, 13.88e-6 * pickUp);
    expectRelative(curve.instrumentsM3PerS({ ...AT, flowM3PerS }), instruments, 1e-3);
    const reach = Math.hypot(expandedUncertaintyM3PerS, instruments);
    const lies = (offM3PerS: number) =>
      accepted(againstPrediction(curve, { ...AT, flowM3PerS: flowM3PerS + offM3PerS })).lies;
    expect(lies(0)).toBe('on the curve');
    expect(lies(-1.02 * reach)).toBe('below the curve');
    expect(lies(1.02 * reach)).toBe('above the curve');
  });

  it('is not there without a strip sheet, and says so', () => {
    const none = predictedCurve({ ...RUN, stripSheet: null });
    expect(none.ok ? '' : none.reason.text).toContain('no strip sheet');
  });
});
