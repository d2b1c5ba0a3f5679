import { describe, expect, it } from 'vitest';
import { atInletHeight } from '../../../analysis/calibration/tappingHead.ts';
import { exactly, type Uncertain } from '../../../analysis/uncertainty/source.ts';
import { channelWith } from '../../support/benchChannel.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const density: Uncertain = { value: 870, sensitivities: { 'oil.density': 870 } };
const pressure: Uncertain = { value: 95_000, sensitivities: { 'suctionPressure.offset': -1 } };

function tapped(valueM: number, tubeFilledWith: 'oil' | 'air') {
  return channelWith('suctionPressure', {
    tapping: { heightOverInletM: { value: valueM, standardUncertainty: 0.01 }, tubeFilledWith },
  });
}

describe('the height of a pressure transmitter', () => {
  it('adds the oil that stands in the tube between inlet and transmitter', () => {
    // By hand: 870 kg/m³ × 9.80665 m/s² × 0.5 m = 4265.893 Pa more at the inlet than half a metre above it.
    const at = atInletHeight(pressure, tapped(0.5, 'oil'), density);
    expectRelative(at.value, 95_000 + 4265.89275, 1e-12);
    expectRelative(at.sensitivities['suctionPressure.tappingHeight'] ?? Number.NaN, 8531.7855, 1e-12);
    expectRelative(at.sensitivities['oil.density'] ?? Number.NaN, 4265.89275, 1e-12);
    expect(at.sensitivities['suctionPressure.offset']).toBe(-1);
  });

  it('takes it off where the transmitter sits below the inlet', () => {
    expectRelative(atInletHeight(pressure, tapped(-0.5, 'oil'), density).value, 95_000 - 4265.89275, 1e-12);
  });

  it('changes nothing for a tube full of air or a transmitter at the inlet', () => {
    expect(atInletHeight(pressure, tapped(0.5, 'air'), density)).toBe(pressure);
    expect(atInletHeight(pressure, channelWith('suctionPressure'), exactly(870))).toBe(pressure);
  });
});
