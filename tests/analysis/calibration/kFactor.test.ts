import { describe, expect, it } from 'vitest';
import { correctedByKFactor, isBeyondKFactorTable } from '../../../analysis/calibration/kFactor.ts';
import { exactly, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import { channelWith } from '../../support/benchChannel.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const meter = channelWith('flow', {
  kFactor: {
    table: [
      { kinematicViscosityM2PerS: 10e-6, ratio: 1 },
      { kinematicViscosityM2PerS: 40e-6, ratio: 1.01 },
      { kinematicViscosityM2PerS: 160e-6, ratio: 0.98 },
    ],
    relativeStandardUncertainty: 0.001,
  },
});
const flow: Uncertain = { value: 2e-4, sensitivities: { 'flow.gain': -2e-4 } };

describe('the K-factor of a flow meter', () => {
  it('takes off what the meter over-reads at the oil’s viscosity, half-way in the logarithm', () => {
    // By hand: 20 mm²/s is half-way from 10 to 40 in ln ν: ratio 1.005; 40 mm²/s is a point of the table: 1.01.
    expectRelative(correctedByKFactor(flow, meter, exactly(20e-6)).value, 2e-4 / 1.005, 1e-12);
    expectRelative(correctedByKFactor(flow, meter, exactly(40e-6)).value, 2e-4 / 1.01, 1e-12);
    expectRelative(correctedByKFactor(flow, meter, exactly(80e-6)).value, 2e-4 / 0.995, 1e-12);
  });

  it('carries the flow’s, the table’s and the viscosity’s errors on, as small changes of each show', () => {
    const viscosity: Uncertain = { value: 80e-6, sensitivities: { 'oil.viscosity': 80e-6 } };
    const { value, sensitivities } = correctedByKFactor(flow, meter, viscosity);
    const change = 1e-6;
    const thicker = correctedByKFactor(flow, meter, exactly(80e-6 * (1 + change))).value;
    expectRelative(sensitivities['oil.viscosity'] ?? Number.NaN, (thicker - value) / change, 1e-4);
    expectRelative(sensitivities['flow.gain'] ?? Number.NaN, -2e-4 / 0.995, 1e-12);
    // true = indicated / (r (1 + e)): ∂true/∂e = −true
    expectRelative(sensitivities['flow.kFactor'] ?? Number.NaN, -value, 1e-12);
  });

  it('holds the end of the table beyond it, and says so', () => {
    expectRelative(correctedByKFactor(flow, meter, exactly(5e-6)).value, 2e-4, 1e-12);
    expectRelative(correctedByKFactor(flow, meter, exactly(500e-6)).value, 2e-4 / 0.98, 1e-12);
    expect([9e-6, 10e-6, 160e-6, 161e-6].map((viscosity) => isBeyondKFactorTable(meter, viscosity))).toEqual([
      true,
      false,
      false,
      true,
    ]);
  });

  it('leaves the flow of a meter without a table as it is', () => {
    expect(correctedByKFactor(flow, channelWith('flow'), exactly(20e-6))).toBe(flow);
    expect(isBeyondKFactorTable(channelWith('flow'), 1)).toBe(false);
  });

  it('throws for a viscosity that is none', () => {
    expect(() => correctedByKFactor(flow, meter, exactly(0))).toThrow(RangeError);
    expect(() => correctedByKFactor(flow, meter, exactly(Number.NaN))).toThrow(RangeError);
  });
});
