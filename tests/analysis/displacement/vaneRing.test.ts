import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { sweptVolumeOf } from '../../../analysis/displacement/sweptVolume.ts';
import {
  type CircularRing,
  countedVaneSweptVolume,
  thinVaneSweptVolume,
  vaneFlowRipple,
} from '../../../analysis/displacement/vaneRing.ts';
import type { VaneRingGeometry } from '../../../analysis/records/geometry/vaneRing.ts';
import { expectRelative } from '../../support/expectRelative.ts';
import { expectSensitivities, measured, scaledLengths, swept, sweptMm3 } from '../../support/sweptGeometry.ts';

/** R_c = 37.5 mm, e = 8 mm, b = 50 mm. */
const ring: CircularRing = { ringRadiusM: 0.0375, eccentricityM: 0.008, ringWidthM: 0.05 };
const CUBIC_MM = 1e-9;

function geometry(change: Partial<VaneRingGeometry> = {}): VaneRingGeometry {
  return {
    kind: 'vaneRing',
    vaneCount: 9,
    ringDiameterM: measured(0.075),
    rotorDiameterM: measured(0.058),
    eccentricityM: measured(0.008),
    ringWidthM: measured(0.05),
    vaneThicknessM: measured(0.002),
    underVanesDeliver: true,
    ...change,
  };
}

describe('the swept volume of a circular vane ring', () => {
  it('has the published value for endlessly many thin vanes', () => {
    // 2π b e D, hydraulic trainers' texts; from memory, recomputed.
    expectRelative(thinVaneSweptVolume(ring), 188495.559 * CUBIC_MM, 1e-8);
  });

  it('has the values of nine, eleven and twelve thin vanes', () => {
    // Formula from memory, recomputed independently by polygon areas.
    for (const [count, mm3] of [
      [9, 184526.87],
      [11, 185831.478],
      [12, 186254.983],
    ] as const) {
      expectRelative(countedVaneSweptVolume(ring, count), mm3 * CUBIC_MM, 1e-8);
      expectRelative(sweptMm3(geometry({ vaneCount: count })), mm3, 1e-8);
    }
  });

  it('comes from below to that of endlessly many vanes', () => {
    // By hand: 1 − V/V_∞ is π²/(6 z²) in the first place and falls with the square of the count.
    expectRelative(countedVaneSweptVolume(ring, 10000), thinVaneSweptVolume(ring), 1e-7);
    expect(countedVaneSweptVolume(ring, 20)).toBeLessThan(thinVaneSweptVolume(ring));
  });

  it('is not the textbook crescent, which is less than half of it', () => {
    // Esposito, Fluid Power with Applications, vane pumps, from memory: (π/2)(D_c + D_r) e L. It gives the book's
    // e = 0.318310 in for 5 in³, D_r = 2, D_c = 3, L = 2 in, and 78.5398 cm³ for D_r 50, D_c 75, e 8, L 50 mm; but a turn
    // of those passes 188.5 cm³, 2.4 times as much.
    const crescent = (ringDiameter: number, rotorDiameter: number, eccentricity: number, width: number): number =>
      (Math.PI / 2) * (ringDiameter + rotorDiameter) * eccentricity * width;
    expectRelative(5 / crescent(3, 2, 1, 2), 0.31831, 1e-6);
    expectRelative(crescent(75, 50, 8, 50), 78539.8, 1e-6);
    expectRelative(thinVaneSweptVolume(ring) / CUBIC_MM / crescent(75, 50, 8, 50), 2.4, 1e-6);
  });

  it('loses what the vanes take where the spaces under them do not deliver', () => {
    // By hand: 2 e z t b cos(π/z) = 2 · 8 · 9 · 2 · 50 · cos 20° = 13531.57 mm³.
    const lost = sweptMm3(geometry()) - sweptMm3(geometry({ underVanesDeliver: false }));
    expectRelative(lost, 14400 * Math.cos(Math.PI / 9), 1e-9);
  });

  it('grows with the cube of the size (seed 61)', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 20, noNaN: true }), fc.boolean(), (scale, underVanesDeliver) => {
        const one = geometry({ underVanesDeliver });
        expectRelative(sweptMm3(scaledLengths(one, scale)), scale ** 3 * sweptMm3(one), 1e-12);
      }),
      { seed: 61, numRuns: 50 },
    );
  });

  it('names its measurements with their sensitivities', () => {
    // Second route: central differences.
    for (const underVanesDeliver of [true, false]) {
      expectSensitivities(geometry({ underVanesDeliver }), {
        'geometry.ringDiameter': 'ringDiameterM',
        'geometry.eccentricity': 'eccentricityM',
        'geometry.ringWidth': 'ringWidthM',
        'geometry.vaneThickness': 'vaneThicknessM',
      });
    }
  });
});

describe('the ripple of a circular vane ring', () => {
  it('is that of cosines where the eccentricity is small, smaller for odd counts', () => {
    // Derived here, no outside source: to the first order in e the flow is cos t over a pitch for even counts, and
    // cos t + cos(t − π/z) = 2 cos(π/2z) cos(t − π/2z) for odd ones; mean of cos over ±a is sin a/a.
    const small: CircularRing = { ...ring, eccentricityM: 1e-7 };
    const ofCosine = (half: number): number => (1 - Math.cos(half)) / (Math.sin(half) / half);
    for (const count of [8, 10, 12]) expectRelative(vaneFlowRipple(small, count), ofCosine(Math.PI / count), 1e-4);
    for (const count of [7, 9, 11]) expectRelative(vaneFlowRipple(small, count), ofCosine(Math.PI / 2 / count), 1e-4);
    expect(swept(geometry()).flowRipple).toBe(vaneFlowRipple(ring, 9));
  });
});

describe('a vane ring that cannot be', () => {
  it('is refused where the rotor does not fit into the ring', () => {
    const refused = sweptVolumeOf(geometry({ eccentricityM: measured(0.009) }));
    // By hand: 37.5 − 9 = 28.5 mm against a rotor of 29 mm.
    expect(refused).toMatchObject({ ok: false, reason: { code: 'ROTOR_OUTSIDE_RING', value: 0.029 } });
    expect(refused.ok ? '' : refused.reason.text).toContain('28.50 mm');
  });

  it('is refused where the vanes leave nothing of the rotor', () => {
    // By hand: 9 · 21 = 189 mm around a rotor of π · 58 = 182.2 mm.
    expect(sweptVolumeOf(geometry({ vaneThicknessM: measured(0.021) }))).toMatchObject({
      ok: false,
      reason: { code: 'VANES_TOO_THICK', quantity: 'vanes side by side [m]' },
    });
  });
});
