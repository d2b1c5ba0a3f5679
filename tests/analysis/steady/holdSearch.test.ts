import { describe, expect, it } from 'vitest';
import { holdLimits } from '../../../analysis/records/benchRecord.ts';
import { channelLabels, leadAfterChangeS, stillnessLimit } from '../../../analysis/steady/holdSearch.ts';
import { benchWithChannel } from '../../support/benchChannel.ts';
import { inventedBench } from '../../support/benchRecord.ts';
import { expectRelative } from '../../support/expectRelative.ts';

describe('leadAfterChangeS', () => {
  it('is five time constants of the slowest channel that a set point moves, temperatures left out', () => {
    // By hand: flow 0.5 s → 2.5 s; the thermometer's 30 s do not count. e⁻⁵ = 0.7 % of a step is left.
    const bench = benchWithChannel('flow', { lagS: 0.5 });
    const channels = bench.channels.map((entry) =>
      entry.channel === 'oilTemperature' ? { ...entry, lagS: 30 } : entry,
    );
    expectRelative(leadAfterChangeS(channels), 2.5, 1e-12);
  });

  it('is a second at least', () => {
    // By hand: the slowest of the invented bench is the flow meter, 5 × 0.06 s = 0.3 s.
    expect(leadAfterChangeS(inventedBench().channels)).toBe(1);
  });
});

describe('stillnessLimit', () => {
  const search = { limits: holdLimits.parse({}), barometerPa: 100_000, leadS: 1 };

  it('judges by the limits of the bench record', () => {
    // By hand from the house limits: 0.2 % of speed, 1.5 % of flow or of a tenth of the largest flow, 0.5 K, 1.5 % of a gauge
    // pressure of 2 bar and more, 3 kPa below.
    expectRelative(stillnessLimit('speed', 15, 0, search), 0.03, 1e-12);
    expectRelative(stillnessLimit('flow', 2e-4, 0, search), 3e-6, 1e-12);
    expectRelative(stillnessLimit('flow', 1e-6, 2e-4, search), 3e-7, 1e-12);
    expect(stillnessLimit('oilTemperature', 318, 0, search)).toBe(0.5);
    expectRelative(stillnessLimit('deliveryPressure', 5e5, 0, search), 6000, 1e-12);
    expect(stillnessLimit('suctionPressure', 0.97e5, 0, search)).toBe(3000);
  });
});

describe('channelLabels', () => {
  it('names channels as a person does', () => {
    expect(channelLabels(['flow', 'oilTemperature'])).toBe('flow, oil temperature at the inlet');
  });
});
