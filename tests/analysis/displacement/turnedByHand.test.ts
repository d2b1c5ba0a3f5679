import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import type { TurnedByHandGeometry } from '../../../analysis/records/geometry/turnedByHand.ts';
import { pumpRecord } from '../../../analysis/records/pumpRecord.ts';
import { sourceTable } from '../../../analysis/uncertainty/source.ts';
import { stateUncertainty } from '../../../analysis/uncertainty/stateUncertainty.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { swept } from '../../support/sweptGeometry.ts';

function geometry(change: Partial<TurnedByHandGeometry> = {}): TurnedByHandGeometry {
  return {
    kind: 'turnedByHand',
    repeats: [
      { volumeM3: 420e-6, turnsRev: 10 },
      { volumeM3: 419e-6, turnsRev: 10 },
      { volumeM3: 421e-6, turnsRev: 10 },
    ],
    volumeStandardUncertaintyM3: 1e-6,
    partialTurnStandardUncertaintyRev: 0.02,
    ...change,
  };
}

describe('a swept volume as turned by hand', () => {
  it('is volume over turns, with vessel, partial turn and scatter in its uncertainty', () => {
    // By hand [cm³]: mean of 42.0, 41.9 and 42.1; vessel 1/10 = 0.1; partial turn 42/10 · 0.02 = 0.084; scatter
    // 0.1/√3 = 0.057735 on 2 degrees of freedom. Root sum of squares 0.142791; ν = u⁴/(0.057735⁴/2) = 74.8.
    const { sweptVolume, sources, basis, flowRipple } = swept(geometry());
    const stated = stateUncertainty(sweptVolume, sourceTable(sources));
    expectRelative(stated.value, 42e-6, 1e-12);
    expectRelative(stated.standardUncertainty, 0.142791e-6, 1e-5);
    expectRelative(stated.degreesOfFreedom ?? Number.NaN, 74.83, 1e-3);
    expect(stated.budget.map(({ label }) => label)).toEqual([
      'volume of the vessel',
      'partial turn',
      'scatter of 3 repeats',
    ]);
    expect(basis).toContain('turned by hand 3 times');
    expect(flowRipple).toBeNull();
  });

  it('does not get better by repeating what is the same each time (seed 68)', () => {
    // The vessel's error and the partial turn do not average out: u never falls below their root sum of squares.
    fc.assert(
      fc.property(fc.integer({ min: 2, max: 40 }), (count) => {
        const repeats = Array.from({ length: count }, () => ({ volumeM3: 420e-6, turnsRev: 10 }));
        const { sweptVolume, sources } = swept(geometry({ repeats }));
        const stated = stateUncertainty(sweptVolume, sourceTable(sources));
        expectRelative(stated.standardUncertainty, Math.hypot(0.1e-6, 0.084e-6), 1e-9);
      }),
      { seed: 68, numRuns: 20 },
    );
  });

  it('is taken from a pump record, which refuses turns that are none', () => {
    const { geometry: recorded } = pumpRecord.shape;
    expect(recorded.parse(geometry())).toEqual(geometry());
    expect(recorded.safeParse(geometry({ repeats: [] })).success).toBe(false);
    expect(recorded.safeParse(geometry({ repeats: [{ volumeM3: 42e-6, turnsRev: 0 }] })).success).toBe(false);
  });

  it('is a mean of unlike turns', () => {
    // By hand: 84/2 = 42 and 210/5 = 42 cm³; vessel (1/2 + 1/5)/2 = 0.35/rev; partial turn −(84/4 + 210/25)/2 = −14.7 cm³/rev².
    const repeats = [
      { volumeM3: 84e-6, turnsRev: 2 },
      { volumeM3: 210e-6, turnsRev: 5 },
    ];
    const { sensitivities, value } = swept(geometry({ repeats })).sweptVolume;
    expectRelative(value, 42e-6, 1e-12);
    expectRelative(sensitivities['geometry.caughtVolume'] ?? Number.NaN, 0.35, 1e-12);
    expectRelative(sensitivities['geometry.partialTurn'] ?? Number.NaN, -14.7e-6, 1e-12);
  });

  it('is refused where it was done only once', () => {
    expect(sweptVolumeOf(geometry({ repeats: [{ volumeM3: 420e-6, turnsRev: 10 }] }))).toMatchObject({
      ok: false,
      reason: { code: 'TOO_FEW_REPEATS', value: 1, limit: 2 },
    });
  });
});
