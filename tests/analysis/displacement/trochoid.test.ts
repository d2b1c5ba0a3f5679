import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { trochoidSweptVolume } from '../../../analysis/displacement/trochoid.ts';
import {
  sharpestCurvature,
  type TrochoidSet,
  trochoidEstimate,
  trochoidFlowRipple,
  trochoidVolume,
} from '../../../analysis/displacement/trochoidSet.ts';
import type { TrochoidGeometry } from '../../../analysis/records/geometry/trochoid.ts';
import { accepted } from '../../support/accepted.ts';
import { expectRelative } from '../../support/expectRelative.ts';

function set(teeth: number, e: number, arcCentre: number, lobe: number, width: number, scale = 1): TrochoidSet {
  const metres = scale / 1000;
  return {
    innerToothCount: teeth,
    arcCentreRadiusM: arcCentre * metres,
    lobeRadiusM: lobe * metres,
    eccentricityM: e * metres,
    widthM: width * metres,
  };
}

const sixTeeth = set(6, 2.5, 27, 8, 20);
const nineTeeth = set(9, 1.6, 30, 6, 15);

function length(mm: number) {
  return { value: mm / 1000, standardUncertainty: 10e-6 };
}

function geometry(change: Partial<TrochoidGeometry> = {}): TrochoidGeometry {
  return {
    kind: 'trochoid',
    innerToothCount: 6,
    lobeTopCircleDiameterM: length(38),
    lobeRadiusM: length(8),
    eccentricityM: length(2.5),
    widthM: length(20),
    ...change,
  };
}

describe('the swept volume of a trochoid rotor set', () => {
  it('has the values of two rotor sets', () => {
    // Derived from first principles, no outside source (Fabiani, Manco, Nervegna, Rundo, SAE 99P-464, and Vacca and
    // Franzoni are the usual references); polygon areas of the chambers agreed to 3e-9.
    expectRelative(trochoidVolume(sixTeeth), 11634.97765e-9, 1e-7);
    expectRelative(trochoidVolume(nineTeeth), 7130.50333e-9, 1e-7);
  });

  it('lies below the quick estimate of the trade', () => {
    // Common practice, recomputed: π b (r_a² − r_f²) is 11 938.05 mm³ (2.60 % high) and 7 238.23 mm³ (1.51 % high); inner
    // rotor radii 16.5 to 21.5 and 22.4 to 25.6 mm.
    expectRelative(trochoidEstimate(sixTeeth), 11938.05e-9, 1e-6);
    expectRelative(trochoidEstimate(nineTeeth), 7238.23e-9, 1e-6);
    expectRelative(trochoidEstimate(sixTeeth) / trochoidVolume(sixTeeth), 1.026, 5e-4);
    expectRelative(trochoidEstimate(nineTeeth) / trochoidVolume(nineTeeth), 1.0151, 5e-4);
    // Calculators' 2π (R_e² − R_i²) W is a factor of two too high.
    expectRelative((2 * Math.PI * (21.5 ** 2 - 16.5 ** 2) * 20e-9) / trochoidVolume(sixTeeth), 2.05, 5e-3);
  });

  it('grows with the cube of the size (seed 46)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), fc.integer({ min: 3, max: 12 }), (scale, teeth) => {
        const one = set(teeth, 15 / (teeth + 1), 27, 6, 20);
        const scaled = set(teeth, 15 / (teeth + 1), 27, 6, 20, scale);
        expectRelative(trochoidVolume(scaled), scale ** 3 * trochoidVolume(one), 1e-11);
        expectRelative(trochoidFlowRipple(scaled), trochoidFlowRipple(one), 1e-9);
      }),
      { seed: 46, numRuns: 40 },
    );
  });
});

describe('the ripple of a trochoid rotor set', () => {
  it('is the swing of the flow between the contacts that close off the widest chamber and the mesh', () => {
    // Second route: contacts stand at φ + 2πk/(N + 1); the one nearest to full mesh and the one nearest to the widest
    // chamber seal, ½ b (s_w² − s_m²)/(N + 1) a radian of the inner rotor. Its mean times 2π is the swept volume.
    for (const rotors of [sixTeeth, nineTeeth]) {
      const { arcCentreRadiusM: centre, lobeRadiusM, eccentricityM, innerToothCount, widthM } = rotors;
      const lobes = innerToothCount + 1;
      const gap = (angle: number): number =>
        Math.hypot(centre - lobes * eccentricityM * Math.cos(angle), lobes * eccentricityM * Math.sin(angle)) -
        lobeRadiusM;
      const flow = (phase: number): number => {
        const contacts = Array.from({ length: lobes }, (_, k) => phase + (2 * Math.PI * k) / lobes);
        const inMesh = contacts.reduce((a, b) => (Math.cos(b) > Math.cos(a) ? b : a));
        const widest = contacts.reduce((a, b) => (Math.cos(b) < Math.cos(a) ? b : a));
        return (widthM * (gap(widest) ** 2 - gap(inMesh) ** 2)) / (2 * lobes);
      };
      const steps = 2000;
      const flows = Array.from({ length: steps }, (_, step) => flow((2 * Math.PI * (step + 0.5)) / (lobes * steps)));
      const mean = flows.reduce((sum, value) => sum + value, 0) / steps;
      expectRelative(2 * Math.PI * mean, trochoidVolume(rotors), 1e-6);
      expectRelative(trochoidFlowRipple(rotors), (Math.max(...flows) - Math.min(...flows)) / mean, 2e-3);
    }
  });
});

describe('sharpestCurvature', () => {
  it('is that of the path of a lobe’s centre, measured on three close points', () => {
    // Second route: circle through three points of z = R_o e^{iτ} + e e^{i(N+1)τ}, at its sharpest.
    for (const { arcCentreRadiusM: centre, eccentricityM: e, innerToothCount: teeth } of [sixTeeth, nineTeeth]) {
      const at = (t: number): [number, number] => [
        centre * Math.cos(t) + e * Math.cos((teeth + 1) * t),
        centre * Math.sin(t) + e * Math.sin((teeth + 1) * t),
      ];
      let sharpest = 0;
      for (let index = 0; index < 2000; index += 1) {
        const t = (2 * Math.PI * index) / (2000 * teeth);
        const [a, b, c] = [at(t - 1e-4), at(t), at(t + 1e-4)];
        const cross = (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
        const sides = Math.hypot(b[0] - a[0], b[1] - a[1]) * Math.hypot(c[0] - b[0], c[1] - b[1]);
        sharpest = Math.max(sharpest, (2 * cross) / (sides * Math.hypot(c[0] - a[0], c[1] - a[1])));
      }
      const rotors = set(teeth, e * 1000, centre * 1000, 1, 1);
      expectRelative(sharpestCurvature(rotors), sharpest, 1e-4);
    }
  });
});

describe('trochoidSweptVolume', () => {
  it('names every measurement it rests on, with its sensitivity', () => {
    // Second route: central differences of the volume.
    const { sweptVolume, sources, basis } = accepted(trochoidSweptVolume(geometry()));
    expectRelative(sweptVolume.value, 11634.97765e-9, 1e-7);
    expect(basis).toContain('6 teeth in 7 lobes');
    expect(sources.map(({ id }) => id)).toEqual([
      'geometry.lobeTopCircleDiameter',
      'geometry.lobeRadius',
      'geometry.eccentricity',
      'geometry.width',
      'geometry.model',
    ]);
    const step = 1e-6;
    for (const [id, key, tolerance] of [
      ['geometry.lobeTopCircleDiameter', 'lobeTopCircleDiameterM', 1e-6],
      // The radius of the lobe hardly matters: the difference of two volumes keeps fewer digits.
      ['geometry.lobeRadius', 'lobeRadiusM', 1e-4],
      ['geometry.eccentricity', 'eccentricityM', 1e-6],
      ['geometry.width', 'widthM', 1e-6],
    ] as const) {
      const value = (by: number): number => {
        const measured = { value: geometry()[key].value + by, standardUncertainty: 0 };
        return accepted(trochoidSweptVolume(geometry({ [key]: measured }))).sweptVolume.value;
      };
      expectRelative(sweptVolume.sensitivities[id] ?? Number.NaN, (value(step) - value(-step)) / (2 * step), tolerance);
    }
  });

  it('refuses lobes that would undercut the inner rotor, or lie inside the rolling circle', () => {
    const refusal = (change: Partial<TrochoidGeometry>): unknown => trochoidSweptVolume(geometry(change));
    // Tightest bend of the path of the lobes' centres, checked above, of some 11.6 mm.
    const undercut = { lobeTopCircleDiameterM: length(30.6), lobeRadiusM: length(11.7) };
    expect(refusal(undercut)).toMatchObject({
      ok: false,
      reason: { code: 'UNDERCUT_LOBES', quantity: 'radius of a lobe [m]', text: expect.stringContaining('11.70 mm') },
    });
    // (N + 1) e = 7 · 5 = 35 mm, the lobes' centres lie at 27 mm.
    expect(refusal({ eccentricityM: length(5) })).toMatchObject({
      ok: false,
      reason: { code: 'UNDERCUT_LOBES', value: 0.027, limit: 0.035 },
    });
  });
});
