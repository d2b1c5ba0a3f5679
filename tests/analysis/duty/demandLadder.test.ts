import { describe, expect, it } from 'vitest';
import { coolingFlow, demandLadder, type LadderInputs } from '../../../analysis/duty/demandLadder.ts';
import { expectRelative } from '../../support/expectRelative.ts';

const nothing: LadderInputs = {
  consumers: [],
  heat: null,
  reference: null,
  geometricVolumeM3PerRev: null,
  ownPrimingTimesS: [],
};

const heat = { powerW: 3000, densityKgPerM3: 860, heatCapacityJPerKgK: 1950, temperatureRiseK: 15 };

/** What a rung proposes. */
function proposal(inputs: Partial<LadderInputs>, id: string) {
  return demandLadder({ ...nothing, ...inputs }).find((rung) => rung.id === id)?.proposal;
}

describe('the ladder where the maker’s data are lost', () => {
  it('offers every rung with its worth, and proposes nothing where nothing is known', () => {
    const ladder = demandLadder(nothing);
    expect(ladder.map(({ id }) => id)).toEqual(['consumers', 'heat', 'reference', 'capacity', 'ownLift']);
    expect(ladder.every((rung) => rung.proposal === null && rung.worth.length > 0)).toBe(true);
  });

  it('adds up what the consumers need, hot and slow', () => {
    const consumers = [
      { name: 'four bearings', flowM3PerS: 1.2e-4 },
      { name: 'mesh spray', flowM3PerS: 0.5e-4 },
    ];
    expect(proposal({ consumers }, 'consumers')).toMatchObject({ quantity: 'deliveredFlow' });
    const found = proposal({ consumers }, 'consumers');
    expectRelative(found?.quantity === 'deliveredFlow' ? found.atLeastM3PerS : Number.NaN, 1.7e-4, 1e-12);
  });

  it('carries the heat off', () => {
    // By hand: q = P/(ρ c ΔT) = 3000/(860 · 1950 · 15) = 1.192606e-4 m³/s.
    expectRelative(coolingFlow(heat), 1.192606e-4, 1e-6);
    expect(proposal({ heat }, 'heat')).toEqual({ quantity: 'deliveredFlow', atLeastM3PerS: coolingFlow(heat) });
  });

  it('takes a sister’s flow, or its own as found, by that name', () => {
    for (const origin of ['sister pump', 'as found before the strip'] as const) {
      const rung = demandLadder({ ...nothing, reference: { origin, flowM3PerS: 2e-4 } }).find(
        ({ id }) => id === 'reference',
      );
      expect(rung).toMatchObject({ origin, proposal: { quantity: 'deliveredFlow', atLeastM3PerS: 2e-4 } });
    }
  });

  it('holds V_i to 95 to 110 % of its geometry, and says what that is not', () => {
    // JB/T 7041-2006, as reproduced at mks-hydraulic.com/newsinfo/508006: no-load displacement 95 to 110 % of nominal.
    const rung = demandLadder({ ...nothing, geometricVolumeM3PerRev: 14e-6 }).find(({ id }) => id === 'capacity');
    expect(rung?.proposal).toEqual({ quantity: 'capacityRatio', atLeast: 0.95, atMost: 1.1 });
    expect(rung?.origin).toBe('in the manner of a standard');
    expect(rung?.worth).toContain('nothing of what the machine needs');
  });

  it('allows half as much again over the slowest of its own starts', () => {
    expect(proposal({ ownPrimingTimesS: [4, 5.2, 4.8] }, 'ownLift')).toEqual({
      quantity: 'primingTime',
      atMostS: 1.5 * 5.2,
    });
    expect(demandLadder(nothing).at(-1)?.worth).toContain('no source');
  });

  it('refuses numbers that are not above zero', () => {
    expect(() => coolingFlow({ ...heat, temperatureRiseK: 0 })).toThrow(RangeError);
    for (const wrong of [
      { consumers: [{ name: 'bearing', flowM3PerS: -1 }] },
      { geometricVolumeM3PerRev: 0 },
      { ownPrimingTimesS: [Number.NaN] },
      { reference: { origin: 'sister pump', flowM3PerS: 0 } },
    ] as const) {
      expect(() => demandLadder({ ...nothing, ...wrong })).toThrow(RangeError);
    }
  });
});
