import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  type LobeRotors,
  lobeFlowRipple,
  lobeRotorArea,
  lobeSweptVolume,
  lobeVolume,
} from '../../../analysis/displacement/lobe.ts';
import type { LobeGeometry } from '../../../analysis/records/geometry/lobe.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { integral } from '../../support/integral.ts';

function rotors(lobeCount: number, scale = 1): LobeRotors {
  const pitchRadiusM = 0.03 * scale;
  return { lobeCount, pitchRadiusM, tipRadiusM: pitchRadiusM * (1 + 1 / lobeCount), widthM: 0.05 * scale };
}

function length(mm: number) {
  return { value: mm / 1000, standardUncertainty: 20e-6 };
}

function geometry(change: Partial<LobeGeometry> = {}): LobeGeometry {
  return {
    kind: 'lobe',
    lobeCount: 2,
    tipDiameterM: length(90),
    centreDistanceM: length(60),
    widthM: length(50),
    ...change,
  };
}

describe('the swept volume of cycloidal rotors', () => {
  it('has the value of two lobes on a pitch radius of 30 mm', () => {
    // Epicycloid and hypocycloid geometry, derived, no outside source: rotor 3 180.86256 mm², V = 318 086.256 mm³; with
    // two lobes this is (π/4) D² b, D the tip diameter.
    expectRelative(lobeRotorArea(rotors(2)), 3180.86256e-6, 1e-8);
    expectRelative(lobeVolume(rotors(2)), 318086.256e-9, 1e-8);
    expectRelative(lobeVolume(rotors(2)), (Math.PI / 4) * 0.09 ** 2 * 0.05, 1e-12);
  });

  it('is the flow of the contact on its rolling circle, followed from pitch point to pitch point', () => {
    // Second route: b (r_a² − R² − d²) a radian, the contact d from the pitch point, integrated over a lobe's passage.
    for (const lobeCount of [2, 3, 4]) {
      const { pitchRadiusM: pitch, tipRadiusM: tip, widthM } = rotors(lobeCount);
      const flow = (turn: number): number => {
        const rollingM = pitch / (2 * lobeCount);
        const chordM = 2 * rollingM * Math.sin((pitch * turn) / rollingM / 2);
        return widthM * (tip ** 2 - pitch ** 2 - chordM ** 2);
      };
      const passage = Math.PI / lobeCount;
      expectRelative(2 * lobeCount * integral(flow, 0, passage), lobeVolume(rotors(lobeCount)), 1e-10);
      const ripple = (flow(0) - flow(passage / 2)) / (integral(flow, 0, passage) / passage);
      expectRelative(lobeFlowRipple(rotors(lobeCount)), ripple, 1e-10);
      // By hand from the formula at full height: (1/N²)/(2/N + 1/(2N²)) = 2/(4N + 1).
      expectRelative(lobeFlowRipple(rotors(lobeCount)), 2 / (4 * lobeCount + 1), 1e-12);
    }
  });

  it('grows with the cube of the size (seed 47)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), fc.integer({ min: 2, max: 6 }), (scale, lobes) => {
        expectRelative(lobeVolume(rotors(lobes, scale)), scale ** 3 * lobeVolume(rotors(lobes)), 1e-11);
        expectRelative(lobeFlowRipple(rotors(lobes, scale)), lobeFlowRipple(rotors(lobes)), 1e-10);
      }),
      { seed: 47, numRuns: 40 },
    );
  });
});

describe('lobeSweptVolume', () => {
  it('names every measurement it rests on, with its sensitivity', () => {
    // Second route: central differences of the closed formula.
    const { sweptVolume, sources, basis } = accepted(lobeSweptVolume(geometry()));
    expect(sources.map(({ id }) => id)).toEqual([
      'geometry.tipDiameter',
      'geometry.centreDistance',
      'geometry.width',
      'geometry.model',
    ]);
    expect(basis).toContain('2 lobes');
    const step = 1e-6;
    for (const [id, key] of [
      ['geometry.tipDiameter', 'tipDiameterM'],
      ['geometry.centreDistance', 'centreDistanceM'],
      ['geometry.width', 'widthM'],
    ] as const) {
      const value = (by: number): number => {
        const measured = { value: geometry()[key].value + by, standardUncertainty: 0 };
        return accepted(lobeSweptVolume(geometry({ [key]: measured }))).sweptVolume.value;
      };
      expectRelative(sweptVolume.sensitivities[id] ?? Number.NaN, (value(step) - value(-step)) / (2 * step), 1e-6);
    }
  });

  it('refuses tips that would not fit the other rotor, and rotors that are no cycloids', () => {
    // On 60 mm two cycloidal lobes have tips of 90 mm; the limits are 0.5 % above and 3 % below.
    expect(lobeSweptVolume(geometry({ tipDiameterM: length(90.5) }))).toMatchObject({
      ok: false,
      reason: { code: 'TIP_INTERFERENCE', value: 0.0905 },
    });
    expect(lobeSweptVolume(geometry({ tipDiameterM: length(87.2) }))).toMatchObject({
      ok: false,
      reason: { code: 'PROFILE_NOT_NOMINAL', value: 0.0872, text: expect.stringContaining('90.00 mm') },
    });
    expect(lobeSweptVolume(geometry({ tipDiameterM: length(90.4) })).ok).toBe(true);
    expect(lobeSweptVolume(geometry({ tipDiameterM: length(87.4) })).ok).toBe(true);
  });
});
